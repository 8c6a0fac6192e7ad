#!/usr/bin/env python3
"""What the tests run through of include/ and src/, by room. Usage: check_coverage.py ROOT BUILD [--uncovered]

BUILD is a build of preset `coverage` whose tests have been run; gcov, which comes with g++, reads its counters. --uncovered prints each line
and each branch that no test took, instead of the table.

Counted are lines, and branches where the source decides something: if, ?:, &&, ||, loops, switch. Not counted are
- both ways of a call that may throw (the compiler makes a branch of each: the way of the exception, which hardly a test takes, and the
  way on, which each takes that comes by);
- branches of blocks to which an exception alone leads, where none came: the compiler's clearing up, and within a catch;
- lines that hold brackets alone, without a run, and branches on them, which are the compiler's clearing up, too;
- comparisons that the compiler writes (= default).
All instances of a template, and a body in the library as in a header, are one: a line or branch is covered where it is in any of them.
Where instances decide differently (if constexpr), those are taken that were run and have the most branches.
Inline functions of public headers that nobody calls are counted, as uncovered (target headers_counted, of which only these count: other
optimisation has other lines). Templates that no test
instantiates are not: the compiler has no lines of them. Not measured are src/python, which Python's tests test, generated tables, and
what is compiled for other operating systems.

Exits with 1 below the goals, of everything and of each room, and where a file below them, which lacks more than a few lines or branches
(FEW: in a short file a single one is a tenth), has no reason in uncovered.md, or has one there that it doesn't need.
"""
import concurrent.futures
import os
import pathlib
import re
import subprocess
import sys

LINE_GOAL = 95.0
BRANCH_GOAL = 85.0
FEW = 5
MEASURED = ("include/", "src/c/", "src/io/", "src/report/", "src/compiled/")
# Its branches are those of a comparison that the compiler writes, member by member.
MADE_BY_COMPILER = re.compile(r".*= default;.*|\s*[\w:<>, ]+\s\w+_(\s*=[^?]*)?;\s*(//.*)?")
BRACKETS_ALONE = re.compile(r"[\s{}()\[\];,]*(//.*)?")
REASONS = pathlib.Path(__file__).resolve().parent / "uncovered.md"


SOURCE_LINE = re.compile(r" *(-|[#=]{5}|\d+\*?): *(\d+):(.*)")
BLOCK = re.compile(r" *([$%]{5}|\d+\*?): *\d+-block +\d+")
BRANCH = re.compile(r"branch +\d+ (?:taken (\d+)|never executed)( \(throw\))?")


class Block:
    """A run of the compiler's code, at whose end it may go two ways or more."""

    def __init__(self, mark):
        self.never_but_by_exception = mark == "$$$$$"
        self.calls = self.throws = False
        self.ways = []

    def decisions(self):
        """How often each way was taken of those that count. Of a block that ends in a call the ways are on, and out by an exception."""
        return [] if self.never_but_by_exception or self.calls or self.throws else self.ways


class Occurrence:
    """A line as gcov prints it once: as such, or of one instance of a template."""

    def __init__(self, number, runs, within, function=0):
        self.number, self.runs, self.within, self.function = number, runs, within, function
        self.blocks = []

    def decisions(self):
        return [way for block in self.blocks for way in block.decisions()]


def read_gcov(text):
    """By source file, the lines that gcov --all-blocks --branch-probabilities --branch-counts prints."""
    files, lines, within, function = {}, [], 0, 0
    for words in text.splitlines():
        function += words.startswith("function ")
        if m := SOURCE_LINE.fullmatch(words):
            if m[2] == "0":
                if m[3].startswith("Source:"):
                    lines, within = files.setdefault(m[3][len("Source:"):], []), 0
            elif m[1] != "-":
                lines.append(Occurrence(int(m[2]), int(m[1].rstrip("*")) if m[1][0].isdigit() else 0, within, function))
            else:
                lines.append(Occurrence(0, 0, 0))
        elif m := BLOCK.fullmatch(words):
            lines[-1].blocks.append(Block(m[1]))
        elif words.startswith("call ") and lines[-1].blocks:
            lines[-1].blocks[-1].calls = True
        elif (m := BRANCH.match(words)) and lines[-1].blocks:
            lines[-1].blocks[-1].ways.append(int(m[1] or 0))
            lines[-1].blocks[-1].throws |= m[2] is not None
        elif words.startswith("-----"):
            within = 0
        elif words.endswith(":") and not words[0].isspace():
            # The instance that follows; a function within another is another.
            within = 1 + words.count("{lambda")
    return {name: [line for line in lines if line.number] for name, lines in files.items()}


def room_of(file):
    """The room that a file is of, by its path from the root."""
    parts = pathlib.PurePosixPath(file).parts
    if parts[0] == "src":
        return parts[1]
    return parts[2] if len(parts) > 3 else "entries"


class Count:
    def __init__(self, lines=0, lines_covered=0, branches=0, branches_covered=0):
        self.lines, self.lines_covered = lines, lines_covered
        self.branches, self.branches_covered = branches, branches_covered

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

    def below_by_much(self):
        return self.below() and max(self.lines - self.lines_covered, self.branches - self.branches_covered) > FEW


class File:
    """Of one file: its count, the lines without a run, and those with a branch that was never taken (how many, of how many)."""

    def __init__(self, lines):
        """lines: by number, how often it was run, and how often each of its branches was taken."""
        self.count = Count()
        self.lines = []
        self.branches = []
        for number, (runs, ways) in sorted(lines.items()):
            taken = sum(way > 0 for way in ways)
            self.count.add(Count(1, int(runs > 0), len(ways), taken))
            if runs == 0:
                self.lines.append(number)
            elif taken < len(ways):
                self.branches.append((number, len(ways) - taken, len(ways)))


class Merged:
    """Lines of one file, of all objects that it is compiled into."""

    def __init__(self):
        self.runs = {}    # by line
        self.shapes = {}  # by line, whether within another function, and number of branches: runs and how often each was taken

    def take_uncalled(self, lines):
        """What gcov says of the file where each function is compiled, called or not: those of which nothing is known from elsewhere."""
        known = {line.function for line in lines if line.number in self.runs}
        self.take([line for line in lines if line.function not in known])

    def take(self, lines):
        """What gcov says of the file in one object."""
        seen = {}
        for line in lines:
            ways = line.decisions()
            # A template's line stands there once for all instances and once for each.
            seen[line.number] = max(seen.get(line.number, 0), line.runs)
            shapes = self.shapes.setdefault(line.number, {}).setdefault(max(1, line.within), {})
            runs, taken = shapes.get(len(ways), (0, [0] * len(ways)))
            shapes[len(ways)] = (runs + line.runs, [a + b for a, b in zip(taken, ways)])
        for number, runs in seen.items():
            self.runs[number] = self.runs.get(number, 0) + runs

    def file(self, words):
        """words: the file's lines."""
        lines = {}
        for number, runs in self.runs.items():
            if BRACKETS_ALONE.fullmatch(words[number - 1]):
                if runs:
                    lines[number] = (runs, [])
                continue
            ways = []
            decides = not MADE_BY_COMPILER.fullmatch(words[number - 1])
            for shapes in self.shapes[number].values() if decides else ():
                ways += max(shapes.values(), key=lambda shape: (shape[0] > 0, len(shape[1])))[1]
            lines[number] = (runs, ways)
        return File(lines)


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
    below = {name: file for name, file in files.items() if file.count.below_by_much()}
    if below:
        said += ["", f"Files below {LINE_GOAL:g} % of lines or {BRANCH_GOAL:g} % of branches, by more than {FEW}:"]
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


def of_object(notes):
    """What gcov says of one object, by source file."""
    said = subprocess.run(["gcov", "--all-blocks", "--branch-probabilities", "--branch-counts", "--stdout", str(notes)], check=False,
                          cwd=notes.parent, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    if said.returncode != 0:
        raise SystemExit(f"check_coverage.py: {notes}: gcov: {said.stderr.decode().strip()}\n"
                         "(counters of another build? delete the .gcda and run the tests again)")
    return read_gcov(said.stdout.decode(encoding="utf-8", errors="replace"))


def is_of_headers(notes):
    """Whether an object is that of target headers_counted, which nothing links or runs."""
    return "headers_counted.dir" in notes.parts


def measure(root, build):
    """By file, from the root, what was run."""
    merged = {}
    objects = sorted(build.rglob("*.gcno"), key=lambda notes: (is_of_headers(notes), notes))
    if not any(notes.with_suffix(".gcda").exists() for notes in objects):
        raise SystemExit(f"check_coverage.py: {build} holds no counters: build preset coverage and run its tests first")
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for notes, files in zip(objects, pool.map(of_object, objects)):
            for source, lines in files.items():
                path = (build / source).resolve()
                name = path.relative_to(root).as_posix() if path.is_relative_to(root) else ""
                if name.startswith(MEASURED):
                    file = merged.setdefault(name, Merged())
                    (file.take_uncalled if is_of_headers(notes) else file.take)(lines)
    files = {name: merged[name].file((root / name).read_text(encoding="utf-8").splitlines()) for name in sorted(merged)}
    return {name: file for name, file in files.items() if file.count.lines}


def main(arguments):
    if len(arguments) not in (2, 3) or arguments[2:] not in ([], ["--uncovered"]):
        print(__doc__.split("\n\n")[0], file=sys.stderr)
        return 2
    root, build = (pathlib.Path(word).resolve() for word in arguments[:2])
    files = measure(root, build)
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
