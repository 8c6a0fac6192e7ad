#!/usr/bin/env python3
"""Makes warnings.schema.json from the lists of the kinds of warnings, include/samelight/ROOM/warning_kinds.hpp.

Usage: generate_warnings.py [--check]     --check: says whether the file is as it would be made, and changes nothing.
The comment above a kind is its description; its facts are written as WarningKind (numeric/warning_kind.hpp) says.
"""
import pathlib
import re
import sys

FOLDER = pathlib.Path(__file__).resolve().parent
ROOT = FOLDER.parents[1]
sys.path.insert(0, str(FOLDER))
from schema_text import schema_text  # noqa: E402

KIND = re.compile(r'((?:[ ]*//[^\n]*\n)+)\s*\{"(\w+)",\s*((?:"[^"]*"\s*)+)\}')
# Behind its own facts stand those of the doubt.
OPEN = {"made_with_doubt"}


def fact_schema(kind):
    """The schema of a fact whose name is followed by `kind`: "", "[]", ":text", ":text[]" or ":one|two"."""
    if kind == "":
        return {"description": "null: no finite number", "type": ["number", "null"]}
    if kind == "[]":
        return {"type": "array", "items": {"type": ["number", "null"]}}
    if kind == ":text":
        return {"type": "string"}
    if kind == ":text[]":
        return {"type": "array", "items": {"type": "string"}}
    return {"enum": kind[1:].split("|")}


def facts_schema(code, description, facts):
    properties, required = {}, []
    for fact in facts.split():
        name, kind, optional = re.fullmatch(r"(\w+?)((?:\[\]|:[^?]+)?)(\??)", fact).groups()
        properties[name] = fact_schema(kind)
        if not optional:
            required.append(name)
    schema = {"description": description, "type": "object", "properties": properties, "required": required}
    if code not in OPEN:
        schema["additionalProperties"] = False
    return schema


def kinds(root):
    """Code -> the schemas of its facts, one for each room that has it."""
    found = {}
    for header in sorted((root / "include/samelight").glob("*/warning_kinds.hpp")):
        for comment, code, facts in KIND.findall(header.read_text(encoding="utf-8")):
            description = " ".join(line.strip().lstrip("/").strip() for line in comment.splitlines() if line.strip())
            facts = "".join(re.findall(r'"([^"]*)"', facts))
            schema = facts_schema(code, description, facts)
            if schema not in found.setdefault(code, []):
                found[code].append(schema)
    return found


def made(root):
    found = kinds(root)
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A warning",
        "description": "What is doubtful. Made by generate_warnings.py; each code's facts are in $defs.",
        "type": "object",
        "properties": {
            "code": {"description": "Which warning, for programs.", "enum": sorted(found)},
            "message": {"description": "In English, for people.", "type": "string"},
            "facts": {"description": "What it is about; names hold units.", "type": "object"},
        },
        "required": ["code", "message", "facts"],
        "additionalProperties": False,
        "allOf": [
            {"if": {"properties": {"code": {"const": code}}}, "then": {"properties": {"facts": {"$ref": f"#/$defs/{code}"}}}}
            for code in sorted(found)
        ],
        "$defs": {},
    }
    for code in sorted(found):
        rooms = found[code]
        schema["$defs"][code] = rooms[0] if len(rooms) == 1 else {"anyOf": rooms}
    return schema_text(schema)


def main():
    file = FOLDER / "warnings.schema.json"
    text = made(ROOT)
    if sys.argv[1:] == ["--check"]:
        if not file.exists() or file.read_text(encoding="utf-8") != text:
            sys.exit(f"{file}: not as {pathlib.Path(__file__).name} makes it from warning_kinds.hpp; run it")
    elif sys.argv[1:]:
        sys.exit(__doc__)
    else:
        file.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
