#!/usr/bin/env python3
"""check_docs.py finds what it should find, and nothing else; so does the table of accuracy."""
import pathlib
import sys
import tempfile

from check_docs import example_faults, link_faults, python_faults, sections, typed_in

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "src" / "docs" / "making"))
from accuracy import bound_in, tests_of  # noqa: E402
from header_filter import escaped  # noqa: E402
from largest_errors import FEWEST, figure_faults  # noqa: E402
from pages import blocks, target  # noqa: E402

PAGES = {"a.md": "# A\n\n## To do it\n\n[one](b.md) [two](b.md#more-of-it) [three](#to-do-it) [`four`](../x/c.txt)\n\n    [code](nowhere.md)\n",
         "b.md": "# B\n\n## More of it\n\n[out](https://example.org) `[no](link.md)`\n"}
FAULTY = {"[a](c.md)": 1, "[a](b.md#less)": 1, "[a](#none)": 1, "[a](../x/d.txt)": 1, "[`a`](c.md) and `b`": 1, "[a](b.md)": 0, "[a](../x/c.txt)": 0}
BOUNDS = {
    "A sum. Error: rounding, below 1e-12. Throws nothing.": "rounding, below 1e-12",
    "A target. Error of x and y below 1e-12. Throws as match().": "of x and y below 1e-12",
    "Range: any. Error: 1e-3. Source: own.": "1e-3",
    "Throws Error (domain) for none.": None,
    "Throws Error of kind input.": None,
}
SOURCE = """
double helper(double x) { return rebin(x); }
TEST(Rebinning, KeepsLight) { EXPECT_NEAR(helper(1), 1, 1e-12); }
TEST_F(Other, SaysNothing) { const char* s = "rebin()"; std::log(2.0); }  // rebin
"""
wrong = 0


def expect(found, wanted, what):
    global wrong
    if found != wanted:
        wrong += 1
        print(f"{what}: found {found}, wanted {wanted}", file=sys.stderr)


def made(folder, more=""):
    docs = pathlib.Path(folder) / "docs"
    docs.mkdir()
    (docs.parent / "x").mkdir()
    (docs.parent / "x" / "c.txt").write_text("c")
    for name, text in PAGES.items():
        (docs / name).write_text(text + (more if name == "a.md" else ""))
    return docs


for link, count in FAULTY.items():
    with tempfile.TemporaryDirectory() as folder:
        faults, _ = link_faults(made(folder, link + "\n"))
        expect(len(faults), count, link)
expect(sections("# A b\n```\n# no\n```\n## It's `so`, 2\n"), {"a-b", "its-so-2"}, "sections")
for docstring, bound in BOUNDS.items():
    expect(bound_in(docstring), bound, docstring)
with tempfile.TemporaryDirectory() as folder:
    path = pathlib.Path(folder) / "a_test.cpp"
    path.write_text(SOURCE)
    expect({name: "rebin" in words for name, words in tests_of(path)}, {"Rebinning.KeepsLight": True, "Other.SaysNothing": False}, "tests that name")
    expect(["log" in words for _, words in tests_of(path)], [False, False], "names of the standard library")
expect(list(typed_in("x\n\n    samelight white a.csv --json | check -\n    samelight panel \\\n        crt\n\n    $ samelight none\n")),
       [["white", "a.csv", "--json"], ["panel", "crt"]], "commands")
expect(escaped("L* < 1, `a*b`, #2, @param x, a@b"), "L\\* \\< 1, `a*b`, \\#2, @param x, a\\@b", "escaped")
expect([prose for prose, _ in blocks("a\n\n    code\n- item\n    more of it\n```\nb\n```")],
       [True, True, False, True, True, False, False, False], "prose")
expect(target("b.md#it-is", "a", ROOT)[0], "@ref page_b_it_is", "a link to a section")
expect(target("../../LICENSE", "a", ROOT), ("files/LICENSE", ROOT / "LICENSE"), "a link to a file")
with tempfile.TemporaryDirectory() as folder:
    root = pathlib.Path(folder)
    for place in ("tools/examples/expected", "tools/samelight", "include/samelight", "docs", "src/python"):
        (root / place).mkdir(parents=True)
    (root / "docs" / "index.md").write_text("`samelight/a.hpp` samelight white\n<!-- example: one.cpp -->\n<!-- example: none.cpp -->\n")
    (root / "docs" / "python.md").write_text("| x | `known`, `unknown` |\n")
    (root / "src" / "python" / "samelight.pyi").write_text("def known() -> None: ...\n")
    for name in ("tools/examples/one.cpp", "tools/examples/two.c", "tools/examples/expected/one.txt", "include/samelight/a.hpp", "include/samelight/b.hpp",
                 "tools/samelight/white.cpp", "tools/samelight/check.cpp", "tools/samelight/main.cpp"):
        (root / name).write_text("")
    expect(len(example_faults(root, root / "docs")), 4, "no example, one that isn't shown, a header, a command")
    expect(len(python_faults(root, root / "docs")), 1, "names of the module")
with tempfile.TemporaryDirectory() as folder:
    header = pathlib.Path(folder) / "include" / "samelight" / "a.hpp"
    header.parent.mkdir(parents=True)
    header.write_text("/// Error: double 5e-13, float 12e-4.\nvoid f(int);\n")
    good = {"operation": "f()", "part": "", "type": "double", "range": "any", "bound": "5e-13", "unit": "f", "header": "a.hpp", "reference": "g",
            "largest": 4e-13}
    many = [{**good, "part": str(i)} for i in range(FEWEST)]
    for change, count in (({}, 0), ({"largest": 6e-13}, 1), ({"largest": float("nan")}, 1), ({"bound": "2e-4"}, 1), ({"operation": "h()"}, 1),
                          ({"part": "1"}, 1)):
        expect(len(figure_faults(pathlib.Path(folder), [{**many[0], **change}, *many[1:]])), count, f"a figure with {change}")
    expect(len(figure_faults(pathlib.Path(folder), many[1:])), 1, "too few figures")
sys.exit(1 if wrong else 0)
