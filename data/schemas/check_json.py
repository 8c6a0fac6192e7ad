#!/usr/bin/env python3
"""Checks answers of the command (--json, --lines-of-json, correction files) against the schemas in this folder.

Usage: check_json.py [--open] FILE...       each file's answer against the schema that its "schema" names; -: standard input
       check_json.py [--open] --bundle NAME the schema NAME (check-1) with all parts that it takes from other files, to standard output

--open: keys and codes that the schema doesn't know are no faults, as a later version may have them (src/docs/json.md).
Exit code: 0 all answers are as described, 1 not, 2 the line isn't understood, 77 the Python package jsonschema is missing.
"""
import copy
import json
import pathlib
import sys

FOLDER = pathlib.Path(__file__).resolve().parent


def schema_names(folder=FOLDER):
    """Of the answers: "check-1", ..., without those that only hold parts."""
    return sorted(file.name.removesuffix(".schema.json") for file in folder.glob("*-[0-9]*.schema.json"))


def read_schema(name, folder=FOLDER):
    return json.loads((folder / f"{name}.schema.json").read_text(encoding="utf-8"))


def bundled(name, folder=FOLDER):
    """A schema that needs no other file: a part FILE#/$defs/PART is FILE.PART in its own $defs, a whole file FILE."""
    root = read_schema(name, folder)
    parts = {}

    def moved(schema, file):
        """`schema` of that file with its references as they are in the bundle."""
        if isinstance(schema, list):
            return [moved(item, file) for item in schema]
        if not isinstance(schema, dict):
            return schema
        result = {key: moved(value, file) for key, value in schema.items() if key != "$defs"}
        if isinstance(schema.get("$ref"), str):
            where, _, part = schema["$ref"].partition("#/$defs/")
            target = where.removesuffix(".schema.json") or file
            result["$ref"] = f"#/$defs/{take(target, part)}"
        return result

    def take(file, part):
        key = part if file == name and part else f"{file}.{part}" if part else file
        if key not in parts:
            parts[key] = None
            whole = read_schema(file, folder)
            parts[key] = moved(whole["$defs"][part] if part else whole, file)
        return key

    result = moved(root, name)
    for part in root.get("$defs", {}):
        take(name, part)
    result["$defs"] = parts
    return result


def opened(schema):
    """The same, but unknown keys and unknown codes are no faults."""
    if isinstance(schema, list):
        return [opened(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    result = {key: opened(value) for key, value in schema.items()}
    if result.get("additionalProperties") is False:
        del result["additionalProperties"]
    if isinstance(result.get("enum"), list):
        nullable = None in result.pop("enum")
        result["type"] = ["string", "null"] if nullable else "string"
    return result


class Checker:
    """Validators, made once for each schema."""

    def __init__(self, folder=FOLDER, unknown_allowed=False):
        self.folder, self.unknown_allowed, self.made = folder, unknown_allowed, {}

    def validator(self, name, part=""):
        import jsonschema

        if (name, part) not in self.made:
            schema = bundled(name, self.folder)
            if self.unknown_allowed:
                schema = opened(schema)
            if part:
                schema = {"$ref": f"#/$defs/{part}", "$defs": schema["$defs"]}
            self.made[name, part] = jsonschema.Draft202012Validator(schema)
        return self.made[name, part]

    def faults(self, answer, name, part=""):
        """What is wrong, a line each; empty where nothing is."""
        lines = []
        for error in self.validator(name, part).iter_errors(answer):
            where = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in _deepest(error).absolute_path)
            lines.append(f"{where or 'the answer'}: {_deepest(error).message[:300]}")
        return lines


def _deepest(error):
    """Of alternatives the fault of the one that was gone into furthest."""
    while error.context:
        error = max(error.context, key=lambda inner: len(inner.absolute_path))
    return error


def name_of(answer):
    """"check-1" of "samelight/check/1"; None where it is no answer."""
    said = answer.get("schema") if isinstance(answer, dict) else None
    parts = said.split("/") if isinstance(said, str) else []
    return f"{parts[1]}-{parts[2]}" if len(parts) == 3 and parts[0] == "samelight" else None


def answers(text):
    """The answers in a text with the schema and the part for each: one object, or lines of JSON."""

    def refuse(constant):
        raise ValueError(f"{constant} is no JSON")

    try:
        one = json.loads(text, parse_constant=refuse)
        return [(one, name_of(one), "")]
    except json.JSONDecodeError:
        found, lines_of = [], None
        for line in text.splitlines():
            one = json.loads(line, parse_constant=refuse)
            name = name_of(one)
            found.append((one, name or lines_of, "" if name else "line"))
            lines_of = lines_of or name
        return found


def faults_of_text(text, checker):
    try:
        found = answers(text)
    except ValueError as error:
        return [f"no JSON: {error}"]
    lines = []
    for answer, name, part in found:
        if name is None:
            lines.append('no "schema" that names one')
        elif name not in schema_names(checker.folder):
            lines.append(f"no schema {name}")
        else:
            lines += checker.faults(answer, name, part)
    return lines


def main(arguments):
    unknown_allowed = "--open" in arguments
    words = [word for word in arguments if word != "--open"]
    if len(words) == 2 and words[0] == "--bundle" and words[1] in schema_names():
        schema = bundled(words[1])
        print(json.dumps(opened(copy.deepcopy(schema)) if unknown_allowed else schema, indent=2, ensure_ascii=False))
        return 0
    if not words or any(word.startswith("--") for word in words):
        print(__doc__, file=sys.stderr)
        return 2
    try:
        import jsonschema  # noqa: F401
    except ImportError:
        print("check_json.py: no Python package jsonschema (Debian: python3-jsonschema)", file=sys.stderr)
        return 77
    checker, wrong = Checker(unknown_allowed=unknown_allowed), 0
    for word in words:
        text = sys.stdin.read() if word == "-" else pathlib.Path(word).read_text(encoding="utf-8")
        lines = faults_of_text(text, checker)
        wrong += bool(lines)
        for line in lines:
            print(f"{word}: {line}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
