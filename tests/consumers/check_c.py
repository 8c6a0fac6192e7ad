#!/usr/bin/env python3
"""Builds the C program in c/main.c against an installed samelight, found by pkg-config, and compares what it says of the demo's four displays with the
command's JSON. Usage: check_c.py --compiler CC --cxx CXX --prefix PREFIX --source ROOT --work FOLDER

Compiled as C11 with -pedantic-errors, linked with the shared library and with the static one, the latter by CXX. Figures agree within 1e-12; the JSON is
the command's to the byte. The static one is built once more with -fsanitize=address,undefined, which sees what the program and the library's heap do wrong.
(valgrind can't: its long double has 64 bits, on which Boost's functions for that type end the program before it begins.)
"""
import argparse
import json
import os
import pathlib
import shutil
import subprocess
import sys

DISPLAYS = ("grading-monitor", "client-set", "desk-display", "foyer-display")
STRICT = ("-std=c11", "-pedantic-errors", "-Wall", "-Wextra", "-Wconversion", "-Wshadow", "-Werror", "-O1")
SANITIZED = ("-fsanitize=address,undefined", "-fno-sanitize-recover=undefined")


def run(command, cwd=None, env=None):
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, cwd=cwd, env=env, check=False)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, command))}\nended with {done.returncode}:\n{(done.stdout + done.stderr)[-8000:]}")
    return done.stdout


def pkg_config(prefix, *options):
    found = sorted(prefix.rglob("samelight-c.pc"))
    if len(found) != 1:
        sys.exit(f"{prefix}: {len(found)} files samelight-c.pc; wanted one")
    env = {**os.environ, "PKG_CONFIG_PATH": str(found[0].parent)}
    return run(["pkg-config", *options, "samelight-c"], env=env).split()


def built(given, linking):
    """The program, linked with the shared library or, through the C++ compiler, with the static one."""
    program, compiled = given.work / f"consumer_{linking}", given.work / "main.o"
    more = SANITIZED if linking == "sanitized" else ()
    run([given.compiler, *STRICT, *more, *pkg_config(given.prefix, "--cflags"), "-c", given.source / "tests/consumers/c/main.c", "-o", compiled])
    if linking == "shared":
        folder = pkg_config(given.prefix, "--variable=libdir")[0]
        run([given.compiler, compiled, *pkg_config(given.prefix, "--libs"), f"-Wl,-rpath,{folder}", "-o", program])
    else:
        libraries = [part.replace("-lsamelight_c", "-l:libsamelight_c.a") for part in pkg_config(given.prefix, "--static", "--libs")]
        run([given.cxx, *more, compiled, *libraries, "-o", program])
    return program


def same(name, printed, answer, text):
    """Compares the program's lines with the command's answer."""
    lines = printed.split("\n")
    for display, line in zip(answer["panels"], lines[1:]):
        x, y, half_x, half_y, verdict = line.split(" ", 4)
        target = display["targets"][0]
        for what, mine, theirs in (("x", x, target["x"]), ("y", y, target["y"]), ("half_width_x", half_x, display["budget"]["half_width_x"]),
                                   ("half_width_y", half_y, display["budget"]["half_width_y"])):
            if not abs(float(mine) - theirs) <= 1e-12:
                sys.exit(f"{name}: {display['name']}: {what} {mine}; the command has {theirs!r}")
        if verdict != display["advice"]["verdict"]:
            sys.exit(f"{name}: {display['name']}: {verdict}; the command has {display['advice']['verdict']}")
    if "\n".join(lines[1 + len(answer["panels"]):]).strip() != text.strip():
        sys.exit(f"{name}: the JSON is not the command's")


def main():
    parser = argparse.ArgumentParser()
    for name in ("compiler", "cxx"):
        parser.add_argument(f"--{name}", required=True)
    for name in ("prefix", "source", "work"):
        parser.add_argument(f"--{name}", required=True, type=pathlib.Path)
    given = parser.parse_args()
    shutil.rmtree(given.work, ignore_errors=True)
    given.work.mkdir(parents=True)
    files = [f"data/demo/{name}.csv" for name in DISPLAYS]
    text = run([given.prefix / "bin/samelight", "white", *files, "--reference", "crt@0.3127,0.3290", "--json"], cwd=given.source)
    answer = json.loads(text)
    if len(answer["panels"]) != len(DISPLAYS):
        sys.exit(f"the command answers about {len(answer['panels'])} displays")
    for linking in ("shared", "static", "sanitized"):
        same(linking, run([built(given, linking), *files], cwd=given.source), answer, text)
        print(f"{linking}: {len(files)} displays as the command has them, and its JSON")


if __name__ == "__main__":
    main()
