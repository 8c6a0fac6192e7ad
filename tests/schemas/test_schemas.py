#!/usr/bin/env python3
"""Checks what the command says as JSON against the schemas. Usage: test_schemas.py COMMAND ROOT [--kept FOLDER]

- Every answer to questions.py's questions, and every file of a correction or population, is as its schema describes it.
- Each key that a schema describes is in one of them, but for SELDOM.
- In a sample of each schema, a key that is renamed, left out or given another type is found, wherever it is.
- check_json.py says so of a file, too; with --open a key or code that is added is no fault.
With --kept: instead, every file in FOLDER, where the tests of the command keep what they were told (SAMELIGHT_KEEP_JSON); then removes it.
Ends with 77 where the Python package jsonschema is missing, or nothing was kept.
"""
import concurrent.futures
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

from questions import made_files, questions, written
from walk import Walk, changed, described, shortened

# Keys that no question brings out, and why.
SELDOM = {
    "correction-1.panel_spectra_digest": "read and kept where a file has it; the command writes none",
}


def ask(command, arguments, stdin, folder):
    done = subprocess.run([command, *arguments], capture_output=True, text=True, encoding="utf-8", errors="replace", input=stdin, cwd=folder)
    return " ".join(arguments), done.stdout, done.returncode


def of_file(name, where, names):
    """Where a key of the schema `name` is described, by the file that holds it: "white-1.panel.type" wherever displays are answered."""
    first = where.split(".", 1)[0]
    return where if first in (*names, "common", "warnings") else f"{name}.{where.lstrip('.')}"


class Test:
    def __init__(self, root):
        from check_json import Checker, answers, bundled, schema_names

        self.checker, self.answers, self.bundled, self.names = Checker(), answers, bundled, schema_names()
        self.faults, self.seen, self.samples, self.walks, self.keys = [], set(), {}, {}, {}

    def walk(self, name):
        """Of the whole schema of that name, with what tells alternatives apart."""
        if name not in self.walks:
            import jsonschema

            bundle = self.checker.validator(name).schema
            made = {}

            def valid(answer, schema):
                if id(schema) not in made:
                    made[id(schema)] = jsonschema.Draft202012Validator({**schema, "$defs": bundle["$defs"]})
                return made[id(schema)].is_valid(answer)

            self.walks[name] = Walk(bundle, valid)
            self.keys[name] = {which: of_file(name, where, self.names) for which, where in described(bundle).items()}
        return self.walks[name]

    def check(self, who, text):
        """One text that was printed."""
        try:
            found = self.answers(text)
        except ValueError as error:
            self.faults.append(f"{who}: no JSON: {error}")
            return
        for answer, name, part in found:
            if name not in self.names:
                self.faults.append(f"{who}: no schema {name}")
                continue
            lines = self.checker.faults(answer, name, part)
            self.faults += [f"{who}: {line}" for line in lines]
            if not lines:
                self.keep(answer, name, part)

    def keep(self, answer, name, part):
        walk = self.walk(name)
        schema = walk.bundle["$defs"][part] if part else None
        new = 0
        small = shortened(answer)
        for _, found, described_by in walk.objects(answer, schema):
            for key in found:
                where = self.keys[name].get((id(described_by), key))
                if where is not None and (name, where) not in self.seen:
                    self.seen.add((name, where))
                    new += 1
        # A sample is kept where it shows something that no earlier one of that schema did: all are changed later.
        if new and not self.checker.faults(small, name, part):
            self.samples.setdefault((name, part), []).append(small)

    def unseen(self):
        """Keys that no answer has. Which warnings there are is tested where they are made."""
        seen = {where for _, where in self.seen}
        return sorted({where for name in self.names for where in self.keys[name].values() if where not in seen and not where.startswith("warnings.")})

    def bend(self):
        """Changes one thing after the other in the samples; returns how many, by schema. What was in an answer and in no sample is a fault."""
        counts, bent = {}, set()
        for (name, part), samples in self.samples.items():
            walk, done = self.walk(name), set()
            validator = self.checker.validator(name, part)
            schema = walk.bundle["$defs"][part] if part else None
            for sample in samples:
                for way, found, described_by in list(walk.objects(sample, schema)):
                    for key in found:
                        if key not in described_by["properties"] or (id(described_by), key) in done:
                            continue
                        done.add((id(described_by), key))
                        bent.add((name, self.keys[name].get((id(described_by), key))))
                        for what, change in bends(key, described_by):
                            counts[name] = counts.get(name, 0) + 1
                            if validator.is_valid(changed(sample, way, change)):
                                self.faults.append(f"{name}: nobody finds {'.'.join(map(str, way))}.{key} {what}")
        self.faults += [f"{name}: {where} was changed in no sample" for name, where in sorted(self.seen - bent)]
        return counts


def bends(key, schema):
    def rename(place):
        place[key + "_"] = place.pop(key)

    def another_type(place):
        place[key] = {"another": ["type"]}

    if schema.get("additionalProperties") is False:
        yield "renamed", rename
    if key in schema.get("required", ()):
        yield "left out", lambda place: place.pop(key)
    yield "of another type", another_type


def check_tool(root, answer, folder):
    """check_json.py by its exit codes."""
    tool = root / "data/schemas/check_json.py"
    faults = []

    def code(what, *options):
        file = folder / "answer.json"
        file.write_text(json.dumps(what), encoding="utf-8")
        return subprocess.run([sys.executable, "-B", str(tool), *options, str(file)], capture_output=True).returncode

    added = {**answer, "of_a_later_version": 1}
    other_type = {**answer, "version": 1}
    for what, options, wanted in ((answer, (), 0), (added, (), 1), (added, ("--open",), 0), (other_type, (), 1), (other_type, ("--open",), 1),
                                  ({"schema": "samelight/nothing/1"}, (), 1), ([], (), 1), (answer, ("--nothing",), 2)):
        if code(what, *options) != wanted:
            faults.append(f"check_json.py {' '.join(options)} doesn't end with {wanted} for {json.dumps(what)[:60]}")
    return faults


def check_kept(test, kept):
    """The answers in a folder, which is gone then; where any is at fault it is KEPT-faulty, to be looked at."""
    files = sorted(kept.glob("*.json")) if kept.is_dir() else []
    if not files:
        print("no answers were kept: skipped")
        return 77
    for file in files:
        test.check(file.name, file.read_text(encoding="utf-8"))
    print("\n".join(test.faults) or f"{len(files)} answers are as described")
    faulty = kept.with_name(kept.name + "-faulty")
    shutil.rmtree(faulty, ignore_errors=True)
    kept.rename(faulty)
    if not test.faults:
        shutil.rmtree(faulty)
    return 1 if test.faults else 0


def main(command, root, kept=None):
    root = pathlib.Path(root).resolve()
    sys.path.insert(0, str(root / "data/schemas"))
    try:
        import jsonschema  # noqa: F401
    except ImportError:
        print("no Python package jsonschema: skipped")
        return 77
    test = Test(root)
    if kept:
        return check_kept(test, pathlib.Path(kept))
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        command = str(pathlib.Path(command).resolve())
        made_files(command, root / "data", folder)
        every = questions(root / "data", folder)
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            said = list(pool.map(lambda one: ask(command, *one, folder), every))
        for who, text, code in said:
            if not text.strip():
                test.faults.append(f"{who}: exit code {code}, and no answer")
            else:
                test.check(who, text)
        for file in written(folder, root):
            test.check(file.name, file.read_text(encoding="utf-8"))
        if ("version-1", "") in test.samples:
            test.faults += check_tool(root, test.samples["version-1", ""][0], folder)
    for name in test.names:
        test.walk(name)
    unseen = test.unseen()
    test.faults += [f"{where}: described, and in no answer" for where in unseen if where not in SELDOM]
    test.faults += [f"{where}: is in an answer now; take it from SELDOM" for where in SELDOM if where not in unseen]
    test.faults += [f"{name}: no answer by it" for name in test.names if not any(name == one for one, _ in test.samples)]
    counts = test.bend()
    print("\n".join(test.faults))
    print(f"{len(said)} answers by {len(counts)} schemas; {sum(counts.values())} changes, {len(test.faults)} faults")
    return 1 if test.faults else 0


if __name__ == "__main__":
    words = sys.argv[1:]
    if len(words) not in (2, 4) or len(words) == 4 and words[2] != "--kept":
        sys.exit(__doc__)
    sys.exit(main(words[0], words[1], words[3] if len(words) == 4 else None))
