#!/usr/bin/env python3
"""Checks the schemas in data/schemas by themselves and against the sources. Usage: check_descriptions.py ROOT

- Each is a JSON Schema, each key has a description, each object says which keys must be there and that no others may be.
- Each "schema" value that the sources print has one, and each of them is printed.
- A list of codes that is said to be code_of(ENUM)'s is that list; none of the headers' lists has changed without it.
- warnings.schema.json is as generate_warnings.py makes it of the lists of warnings.
Ends with 77 where the Python package jsonschema is missing.
"""
import json
import pathlib
import re
import subprocess
import sys

CODES = re.compile(r"code_of\((\w+) \w+\) \{(?:([^\n]*)\}\n|(.*?)\n\})", re.DOTALL)
PRINTED = re.compile(r'"samelight/([a-z-]+)/(\d+)"')


def codes_of_headers(root):
    """ENUM -> its codes, from the functions code_of() of headers and bodies."""
    found = {}
    for file in sorted((root / "include/samelight").rglob("*.?pp")):
        for enum, line, lines in CODES.findall(file.read_text(encoding="utf-8")):
            codes = re.findall(r'"([^"]*)"', line + lines)
            if codes:
                found[enum] = codes
    return found


def faults_of(schema, where, codes):
    """Faults of a schema and all in it."""
    if isinstance(schema, list):
        return [fault for item in schema for fault in faults_of(item, where, codes)]
    if not isinstance(schema, dict):
        return []
    faults = []
    if schema.get("type") in ("object", ["object", "null"]) and "properties" in schema and "/made_with_doubt" not in where:
        if schema.get("additionalProperties") is not False:
            faults.append(f"{where}: other keys are allowed")
        if "required" not in schema:
            faults.append(f"{where}: nothing is said of keys that must be there")
        faults += [f"{where}: {key} must be there and isn't described" for key in schema.get("required", []) if key not in schema["properties"]]
        for key, value in schema["properties"].items():
            if "warnings/" not in where and not value.get("description", "").strip():
                faults.append(f"{where}/{key}: no description")
    said = re.fullmatch(r"code_of\((\w+)\)", schema.get("$comment", ""))
    if said:
        listed = [code for code in schema["enum"] if code is not None and code != "table"]
        if listed != codes.get(said[1]):
            faults.append(f"{where}: {listed} is said to be {said[0]}, which has {codes.get(said[1])}")
    for key, value in schema.items():
        if key not in ("enum", "required", "const"):
            faults += faults_of(value, f"{where}/{key}", codes)
    return faults


def main(root):
    root = pathlib.Path(root)
    sys.path.insert(0, str(root / "data/schemas"))
    try:
        import jsonschema
    except ImportError:
        print("no Python package jsonschema: skipped")
        return 77
    from check_json import bundled, read_schema, schema_names

    faults, codes = [], codes_of_headers(root)
    if len(codes) < 40:
        faults.append(f"only {len(codes)} lists of codes found in the headers: has their form changed?")
    used = set()
    for file in sorted((root / "data/schemas").glob("*.schema.json")):
        schema = json.loads(file.read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        faults += faults_of(schema, file.name.removesuffix(".schema.json"), codes)
        used |= set(re.findall(r"code_of\((\w+)\)", file.read_text(encoding="utf-8")))
    printed = set()
    for file in sorted((root / "src").rglob("*.?pp")):
        printed |= {f"{name}-{number}" for name, number in PRINTED.findall(file.read_text(encoding="utf-8"))}
    names = set(schema_names(root / "data/schemas"))
    faults += [f"{name}: printed, and has no schema" for name in sorted(printed - names)]
    faults += [f"{name}: has a schema, and isn't printed" for name in sorted(names - printed)]
    for name in sorted(names):
        whole = read_schema(name, root / "data/schemas")
        value = json.dumps(whole).replace('"schema"', "", 0)
        if f'"samelight/{name[:-2]}/{name[-1]}"' not in value:
            faults.append(f"{name}: its \"schema\" is another")
        bundled(name, root / "data/schemas")
    again = subprocess.run([sys.executable, "-B", str(root / "data/schemas/generate_warnings.py"), "--check"], capture_output=True, text=True)
    if again.returncode:
        faults.append(again.stderr.strip())
    for fault in faults:
        print(fault)
    print(f"{len(names)} schemas, {len(used)} lists of codes, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
