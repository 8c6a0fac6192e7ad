#!/usr/bin/env python3
"""The table of accuracy, src/docs/accuracy.md: for every public operation whose docstring states an error bound the bound in the docstring's own
words, and the tests that name the operation; then the largest errors that tests have seen (largest_errors.py). Nothing in it is typed by hand.

Usage: accuracy.py ROOT [--check]     Writes the table; with --check says whether it is what the docstrings and tests say now (exit code 1: not).

A bound is what stands behind "Error:" in a docstring (or in "Error of ...": its whole sentence), up to the sentence that speaks of something else
(OTHER). A test names an operation where the code in its braces, or in a function or fixture of its file that it calls, has the operation's name.
An operation with a bound that no test names is a fault, unless the bound is another operation's ("as ...", "that of ...") or plain rounding.
"""
import pathlib
import re
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[3] / "tests" / "layout"))
from check_docstrings import blanked, declarations, matching, with_docstrings  # noqa: E402

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import largest_errors  # noqa: E402

FEWEST = 60
MOST_TESTS = 3
OTHER = re.compile(
    r"(?<=[.;])\s+(?=(?:Throws|Source|Own\b|Memory|Cost|Range|Returns|Takes|Time\b|Unit|The same to|Without|Present|X, Y, Z in|Not negative|So\b|"
    r"How far|Published|Field of|For observers|The sizes|The standard's|Round trip of signals not|No unit|Shapes|NaN|It is the|Const)\b)")
BOUND = re.compile(r"\bErrors?: (.*)|\b(Error of (?!kind\b)(?!\().*)", re.DOTALL)
BORROWED = re.compile(r"^(as\b|that of|those of|rounding\b|see\b|value_batch)", re.IGNORECASE)
TEST = re.compile(r"^(?:TYPED_)?TEST(?:_F|_P)?\(\s*(\w+),\s*(\w+)\s*\)\s*\{", re.MULTILINE)
TELLING = re.compile(r"Agree|Publish|Bound|Round|Exact|Accura|Standard|Table|Reference|Within|Error|Same|Match|Cover|Example|Digits", re.IGNORECASE)
HELPER = re.compile(r"^(?:template[^\n]*\n)?[\w:<>,&*\s\[\]]*?\b(\w+)\([^;{}]*\)\s*(?:const\s*)?\{", re.MULTILINE)
WORD = re.compile(r"\b[A-Za-z_]\w*\b|\b[\d.]+e-\d+\b")


def bound_in(docstring):
    """What a docstring says of its error; nothing where it doesn't."""
    found = BOUND.search(docstring)
    if not found:
        return None
    text = OTHER.split(found[1] or found[2], 1)[0]
    return re.sub(r"^Error (?=of )", "", text.strip()).rstrip(".;") or None


def operations(root):
    """(header, line, name, bound), each name once a header, in the headers' order."""
    include = root / "include" / "samelight"
    for path in sorted(include.rglob("*.hpp")):
        text = path.read_text(encoding="utf-8")
        seen = set()
        for one in with_docstrings(text, list(declarations(blanked(text)))):
            bound = bound_in(one.docstring)
            name = f"{one.owner}::{one.name}" if one.owner and one.owner != one.name else one.name
            if bound and name not in seen:
                seen.add(name)
                yield path.relative_to(root), one.line + 1, name, bound, one.kind == "function"


def tests_of(path):
    """(name, words in it and in what it calls of the same file) of every test of a source."""
    code = re.sub(r"\bstd::\w+", "std", blanked(path.read_text(encoding="utf-8")))
    helpers = {}
    for m in HELPER.finditer(code):
        helpers.setdefault(m[1], set()).update(WORD.findall(code[m.start():matching(code, m.end() - 1)]))
    for m in TEST.finditer(code):
        words = set(WORD.findall(code[m.end():matching(code, m.end() - 1)])) | {m[1]}
        for _ in range(2):
            for word in list(words & helpers.keys()):
                words |= helpers[word]
        yield f"{m[1]}.{m[2]}", words


def all_tests(root):
    """(folder, file, test, words), files in order."""
    tests = root / "tests"
    for path in sorted(tests.rglob("*_test.cpp")):
        for name, words in tests_of(path):
            yield path.relative_to(tests).parts[0], path.relative_to(root), name, words


def proofs(operation, tests):
    """The tests that name an operation, those of its own room alone where there are such; first those of its header's own test, that have its
    figures in them, and whose names speak of accuracy."""
    header, _, name, _, _ = operation
    room = header.parts[2]
    last = name.split("::")[-1]
    owner = name.split("::")[0] if "::" in name else last
    naming = [t for t in tests if last in t[3] and (owner in t[3] or "::" not in name)]
    own = [t for t in naming if t[0] == room] or naming
    figures = set(re.findall(r"\b[\d.]+e-\d+\b", operation[3]))
    own.sort(key=lambda t: (t[1].stem != header.stem + "_test", not figures & t[3], not TELLING.search(t[2]), str(t[1]), t[2]))
    return own[:MOST_TESTS], len(own)


def cell(text):
    """Text in a cell of a table: nothing in it is markup."""
    return re.sub(r"([\\|*_<>\[\]#~])", r"\\\1", text)


def table(root):
    """The page, and what is at fault."""
    tests = list(all_tests(root))
    rooms, faults, count = {}, [], 0
    for operation in operations(root):
        header, line, name, bound, function = operation
        shown, number = proofs(operation, tests)
        borrowed = BORROWED.match(bound)
        if not shown and not borrowed:
            faults.append(f"{header}:{line}: {name} states an error that no test names")
        said = "<br>".join(f"`{test}`" for _, _, test, _ in shown) + ("<br>and more" if number > len(shown) else "")
        if not shown:
            said = "by what it is made of"
        rooms.setdefault(header.parts[2], []).append(f"| `{name}{'()' if function else ''}` | {cell(bound)} | {said} |")
        count += 1
    lines = [
        "# How exact everything is",
        "",
        "Every public operation whose docstring states an error, in the docstring's own words, and the tests that hold it. This page is made by",
        "`src/docs/making/accuracy.py` of the headers and the tests; a test fails where it is out of date, or where a stated bound is named by no test.",
        "Bounds are absolute unless they say relative, of the result's own unit. An error that is rounding alone is a few units in the last place of a double.",
        "",
        f"{count} operations.",
    ]
    for room in sorted(rooms):
        lines += ["", f"## {room}", "", "| operation | error | held by |", "|---|---|---|", *rooms[room]]
    seen, seen_faults = largest_errors.section(root)
    lines += seen
    faults += seen_faults
    if count < FEWEST:
        faults.append(f"{count} operations state an error; wanted {FEWEST} at least")
    return "\n".join(lines) + "\n", faults


def main():
    root = pathlib.Path(sys.argv[1]).resolve()
    page = root / "src" / "docs" / "accuracy.md"
    text, faults = table(root)
    for fault in faults:
        print(fault)
    if "--check" in sys.argv:
        if not page.exists() or page.read_text(encoding="utf-8") != text:
            print("src/docs/accuracy.md isn't what the docstrings and tests say now: run src/docs/making/accuracy.py .")
            return 1
        return 1 if faults else 0
    page.write_text(text, encoding="utf-8")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
