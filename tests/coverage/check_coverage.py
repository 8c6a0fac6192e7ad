#!/usr/bin/env python3
"""What the tests run through of include/ and src/, by room. Usage: check_coverage.py ROOT BUILD [--uncovered]

BUILD is a build of preset `coverage` whose tests have been run; gcovr reads its counters. --uncovered prints each line and each branch that
no test took, instead of the table.

Counted are lines, and branches where the source decides something: if, ?:, &&, ||, loops, switch. Not counted are
- both ways of a call that may throw (the compiler makes a branch of each: the way of the exception, which hardly a test takes, and the
  way on, which each takes that comes by);
- branches on lines of braces alone, which are the compiler's clearing up (gcovr --exclude-unreachable-branches).
All instances of a template, and a body in the library as in a header, are one: a line or branch is covered where it is in any of them.
Inline functions of public headers that nobody calls are counted, as uncovered (target headers_counted). Templates that no test
instantiates are not: the compiler has no lines of them. Not measured are src/python, which Python's tests test, generated tables, and
what is compiled for other operating systems.

Exits with 1 below the goals, of everything and of each room, and where a file below them has no reason in uncovered.md, or has one there
that it doesn't need.
"""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

LINE_GOAL = 95.0
BRANCH_GOAL = 85.0
MEASURED = ("include/", "src/c/", "src/io/", "src/report/", "src/compiled/")
REASONS = pathlib.Path(__file__).resolve().parent / "uncovered.md"


def decisions(branches):
    """The branches of a line, in the compiler's order, without those of calls that may throw: each such has its way on beside it."""
    kept = []
    skip = False
    for place, branch in enumerate(branches):
        if skip:
            skip = False
        elif branch["throw"]:
            if kept and kept[-1][0] == place - 1 and branches[place - 1]["fallthrough"]:
                kept.pop()
            else:
                skip = True
        else:
            kept.append((place, branch))
    return [branch for _, branch in kept]


def room_of(file):
    """The room that a file is of, by its path from the root."""
    parts = pathlib.PurePosixPath(file).parts
    if parts[0] == "src":
        return parts[1]
    return parts[2] if len(parts) > 3 else "entries"


class Count:
    def __init__(self):
        self.lines = self.lines_covered = self.branches = self.branches_covered = 0

    def add(self, other):
        self.lines += other.lines
        self.lines_covered += other.lines_covered
        self.branches += other.branches
        self.branches_covered += other.branches_covered

    def line_share(self):
        return 100.0 * self.lines_covered / self.lines if self.lines else 100.0

    def branch_share(self):
        return 100.0 * self.branches_covered / self.branches if self.branches else 100.0

    def below(self):
        return self.line_share() < LINE_GOAL or self.branch_share() < BRANCH_GOAL


class File:
    """Of one file: its count, the lines without a run, and those with a branch that was never taken (how many, of how many)."""

    def __init__(self, data):
        self.count = Count()
        self.lines = []
        self.branches = []
        for line in data["lines"]:
            if line.get("gcovr/noncode"):
                continue
            self.count.lines += 1
            self.count.lines_covered += line["count"] > 0
            ways = decisions(line["branches"])
            taken = sum(way["count"] > 0 for way in ways)
            self.count.branches += len(ways)
            self.count.branches_covered += taken
            if line["count"] == 0:
                self.lines.append(line["line_number"])
            elif taken < len(ways):
                self.branches.append((line["line_number"], len(ways) - taken, len(ways)))


def read_measured(data):
    """By file, what gcovr's JSON says of each that has lines to run."""
    files = {entry["file"]: File(entry) for entry in data["files"]}
    return {name: file for name, file in sorted(files.items()) if file.count.lines}


def read_reasons(text):
    """By file, the reason in uncovered.md: rows `| file | reason |` below a heading and its rule."""
    rows = re.findall(r"^\| *`([^`|]+)` *\| *([^|\n]*?) *\|$", text, re.MULTILINE)
    return dict(rows)


def ranges(numbers):
    """[3, 4, 5, 9] as "3-5 9"."""
    spans = []
    for number in numbers:
        if spans and number == spans[-1][1] + 1:
            spans[-1][1] = number
        else:
            spans.append([number, number])
    return " ".join(str(a) if a == b else f"{a}-{b}" for a, b in spans)


def row(name, count):
    return (f"{name:<12} {count.lines_covered:>6} of {count.lines:>6} lines {count.line_share():6.1f} %"
            f"   {count.branches_covered:>6} of {count.branches:>6} branches {count.branch_share():6.1f} %")


def report(files, reasons):
    """The lines to print, and what is wrong."""
    rooms, everything = {}, Count()
    for name, file in files.items():
        rooms.setdefault(room_of(name), Count()).add(file.count)
        everything.add(file.count)
    said = [row(name, rooms[name]) for name in sorted(rooms)] + [row("all", everything)]
    faults = [f"{name}: below {LINE_GOAL:g} % of lines or {BRANCH_GOAL:g} % of branches"
              for name, count in [*sorted(rooms.items()), ("all", everything)] if count.below()]
    below = {name: file for name, file in files.items() if file.count.below()}
    if below:
        said += ["", f"Files below {LINE_GOAL:g} % of lines or {BRANCH_GOAL:g} % of branches:"]
    for name, file in below.items():
        count = file.count
        said.append(f"{name}: lines {count.line_share():.0f} %, branches {count.branch_share():.0f} %: {reasons.get(name, 'no reason given')}")
        if file.lines:
            said.append(f"    lines {ranges(file.lines)}")
        if file.branches:
            said.append("    a way not taken on " + ranges([line for line, _, _ in file.branches]))
    faults += [f"{name}: below the goals, and no reason in uncovered.md" for name in below if name not in reasons]
    faults += [f"uncovered.md: {name} has a reason, and needs none" for name in reasons if name not in below]
    return said, faults


def uncovered(files, root):
    """Each line and branch without a run, with its words."""
    said = []
    for name, file in files.items():
        words = (root / name).read_text(encoding="utf-8").splitlines()
        marks = {line: "-" for line in file.lines} | {line: f"{missing}/{of}" for line, missing, of in file.branches}
        said += [f"{name}:{line}: {marks[line]:>5} {words[line - 1]}" for line in sorted(marks)]
    return said


def measure(root, build):
    """What gcovr says of a build, as JSON."""
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / "coverage.json"
        filters = [word for path in MEASURED for word in ("--filter", re.escape(str(root / path)))]
        command = ["gcovr", "--root", str(root), "--object-directory", str(build), *filters, "--exclude-unreachable-branches",
                   "-j", str(os.cpu_count() or 1), "--json", str(out), str(build)]
        subprocess.run(command, check=True, cwd=folder, stdout=subprocess.DEVNULL)
        return json.loads(out.read_text(encoding="utf-8"))


def main(arguments):
    if len(arguments) not in (2, 3) or arguments[2:] not in ([], ["--uncovered"]):
        print(__doc__.split("\n\n")[0], file=sys.stderr)
        return 2
    root, build = (pathlib.Path(word).resolve() for word in arguments[:2])
    files = read_measured(measure(root, build))
    if not files:
        print("check_coverage.py: no line was counted: build preset coverage and run its tests first", file=sys.stderr)
        return 1
    if arguments[2:]:
        print("\n".join(uncovered(files, root)))
        return 0
    said, faults = report(files, read_reasons(REASONS.read_text(encoding="utf-8")))
    print("\n".join(said))
    for fault in faults:
        print(f"check_coverage.py: {fault}", file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
