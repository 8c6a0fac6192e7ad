"""Walks a bundled schema along with an answer: which part describes which object."""
import copy


def resolved(schema, bundle):
    while "$ref" in schema:
        schema = bundle["$defs"][schema["$ref"].removeprefix("#/$defs/")]
    return schema


class Walk:
    """Pairs of an object and the schema that describes it, with the way to the object."""

    def __init__(self, bundle, valid):
        """valid(answer, schema): whether an answer is as a part of the bundle describes it."""
        self.bundle, self.valid = bundle, valid

    def objects(self, answer, schema=None, way=()):
        schema = resolved(self.bundle if schema is None else schema, self.bundle)
        if "anyOf" in schema:
            fitting = [one for one in schema["anyOf"] if self.valid(answer, one)]
            if fitting:
                yield from self.objects(answer, fitting[0], way)
            return
        for condition in schema.get("allOf", ()):
            if "if" in condition and self.valid(answer, condition["if"]):
                facts = condition["then"]["properties"]["facts"]
                yield from self.objects(answer["facts"], facts, (*way, "facts"))
        if isinstance(answer, dict) and "properties" in schema:
            yield way, answer, schema
            for key, value in answer.items():
                if key in schema["properties"]:
                    yield from self.objects(value, schema["properties"][key], (*way, key))
        if isinstance(answer, list) and "items" in schema:
            for i, value in enumerate(answer):
                yield from self.objects(value, schema["items"], (*way, i))


def shape(value):
    """What keys there are, and which are null."""
    if isinstance(value, dict):
        return frozenset((key, shape(inner)) for key, inner in value.items())
    if isinstance(value, list):
        return frozenset(shape(inner) for inner in value)
    return value is None


def some_of(values):
    """Of a list of objects the first three and the first of each shape; of a list of lists nine."""
    if not values or not isinstance(values[0], dict):
        return values[:9] if values and isinstance(values[0], list) else values
    shapes, result = set(), []
    for i, value in enumerate(values):
        if i < 3 or shape(value) not in shapes:
            result.append(value)
        shapes.add(shape(value))
    return result


def shortened(value):
    """The same with few members in each list of objects or of lists, for tests that change one thing after the other."""
    if isinstance(value, dict):
        return {key: shortened(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [shortened(inner) for inner in some_of(value)]
    return value


def changed(answer, way, change):
    """A copy in which change(object) was done to the object there."""
    result = copy.deepcopy(answer)
    place = result
    for step in way:
        place = place[step]
    change(place)
    return result


def described(bundle):
    """All keys that a bundle describes, as (identity of the describing schema, key), with words for where that is."""
    keys = {}

    def go(schema, where):
        if isinstance(schema, list):
            for item in schema:
                go(item, where)
        elif isinstance(schema, dict):
            for key, value in schema.get("properties", {}).items():
                keys[id(schema), key] = f"{where}.{key}"
                go(value, f"{where}.{key}")
            for name, value in schema.get("$defs", {}).items():
                go(value, f"{name}")
            for word in ("items", "anyOf", "then", "allOf"):
                if word in schema:
                    go(schema[word], where)

    go(bundle, "")
    return keys
