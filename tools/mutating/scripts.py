"""The tests of the suite that run the command and are no program of GoogleTest: README's screens, odd inputs, schemas, pages in a browser."""
import fnmatch
import json
import os
import pathlib
import subprocess
import tempfile
import time

from trial import Reach, limited, run


def asked_of_ctest(build, program):
    """By name, the tests whose words name that program: their words and their environment. None that others must go before or behind."""
    said = subprocess.run(["ctest", "--test-dir", str(build), "--show-only=json-v1"], check=True, capture_output=True, text=True).stdout
    tests = {}
    for test in json.loads(said)["tests"]:
        properties = {p["name"]: p["value"] for p in test["properties"]}
        if any(str(program) in word for word in test.get("command", [])) and not any(name.startswith("FIXTURES") for name in properties):
            tests[test["name"]] = test["command"], dict(pair.split("=", 1) for pair in properties.get("ENVIRONMENT", []))
    return tests


class Scripts(Reach):
    """Each is run as CTest would; which changes it reaches the command says as it ends (mutant.hpp). left_out: names, as Program has them."""

    def __init__(self, program, kept, build, left_out=""):
        out = left_out.split(":")
        self.ctests = {name: test for name, test in asked_of_ctest(build, program).items() if not any(fnmatch.fnmatchcase(name, o) for o in out)}
        super().__init__(program, kept)

    def once_run(self, name, number, seconds, more={}):
        words, environment = self.ctests[name]
        # A browser maps more memory than it ever uses.
        return run(words, seconds, {**environment, **more, "SAMELIGHT_MUTANT": str(number)}, os.setsid if name.startswith("browser/") else limited)

    def record(self, path, seconds=900):
        with path.open("w", encoding="utf-8") as file:
            for name in sorted(self.ctests):
                with tempfile.TemporaryDirectory(prefix="mutate_") as folder:
                    reached = pathlib.Path(folder) / "reached"
                    start = time.monotonic()
                    verdict, _ = self.once_run(name, -1, seconds, {"SAMELIGHT_MUTANT_REACHED": str(reached)})
                    ids = sorted({int(n) for n in reached.read_text().split()}) if reached.is_file() else []
                    outcome = "passed" if verdict == "passed" else "failed"
                    file.write(f"{name}\t{outcome}\t{time.monotonic() - start:.3f}\t{' '.join(map(str, ids))}\n")

    def judged(self, number, seconds, tests):
        until = time.monotonic() + seconds
        for name in tests:
            verdict, said = self.once_run(name, number, max(1.0, until - time.monotonic()))
            if verdict != "passed":
                return verdict, name
        return "passed", ""
