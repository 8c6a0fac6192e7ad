"""How schemas are laid out: what fits a line stands on one."""
import json

WIDTH = 140


def schema_text(value):
    return _text(value, 0, 0) + "\n"


def _text(value, indent, before):
    line = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, (dict, list)) or not value or indent + before + len(line) <= WIDTH and _flat(value):
        return line
    inner = " " * (indent + 2)
    if isinstance(value, dict):
        parts = [f"{inner}{json.dumps(k)}: {_text(v, indent + 2, len(json.dumps(k)) + 3)}" for k, v in value.items()]
        return "{\n" + ",\n".join(parts) + "\n" + " " * indent + "}"
    if not any(isinstance(item, (dict, list)) for item in value):
        return _filled(value, indent)
    return "[\n" + ",\n".join(inner + _text(item, indent + 2, 1) for item in value) + "\n" + " " * indent + "]"


def _flat(value):
    """Nothing but plain values in it, or one level of them."""
    items = value.values() if isinstance(value, dict) else value
    return all(not isinstance(item, (dict, list)) or len(json.dumps(item)) < 90 for item in items)


def _filled(values, indent):
    """A list of plain values over as few lines as it takes."""
    lines, line = [], ""
    for i, value in enumerate(values):
        word = json.dumps(value, ensure_ascii=False) + ("," if i + 1 < len(values) else "")
        if line and indent + 2 + len(line) + 1 + len(word) > WIDTH:
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    lines.append(line)
    inner = " " * (indent + 2)
    return "[\n" + "\n".join(inner + text for text in lines) + "\n" + " " * indent + "]"
