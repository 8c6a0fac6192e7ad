#!/usr/bin/env python3
"""check_coverage.py must count what was run, and find what is below the goals, or without a reason, or with a needless one."""
import pathlib
import tempfile
import unittest

import check_coverage

TAKEN, MISSED = 3, 0

HEAD = """        -:    0:Source:/x/a.cpp
        -:    0:Graph:/x/a.gcno
        -:    1:// words
"""
# A condition that went one way, behind a call that may throw and didn't.
ASKED = """function _Z1fv called 3 returned 100% blocks executed 80%
       3*:    {line}:    if (asked(x)) {{
        3:    {line}-block  0
call    0 returned 3
branch  1 taken 3 (fallthrough)
branch  2 taken 0 (throw)
        3:    {line}-block  1
branch  3 taken 0 (fallthrough)
branch  4 taken 3
"""
# The same, never run: gcov doesn't say then which way is the exception's.
NEVER = """    #####:    {line}:    if (asked(x)) {{
    %%%%%:    {line}-block  0
call    0 never executed
branch  1 never executed
branch  2 never executed
    %%%%%:    {line}-block  1
branch  3 never executed
branch  4 never executed
"""
# Clearing up behind an exception.
CLEARED = """    $$$$$:    {line}-block  2
branch  5 never executed
branch  6 never executed
"""


def merged(*texts, words=("words",) * 9):
    result = check_coverage.Merged()
    for text in texts:
        result.take(check_coverage.read_gcov(HEAD + text)["/x/a.cpp"])
    return result.file(words)


def file_of(covered, missed):
    return check_coverage.File({n + 1: (TAKEN if n < covered else MISSED, []) for n in range(covered + missed)})


def branches(file):
    return file.count.branches, file.count.branches_covered


class Gcov(unittest.TestCase):
    def test_lines_with_their_runs(self):
        files = check_coverage.read_gcov(HEAD + "        2:    4:a();\n    #####:    5:b();\n    =====:    6:c();\n       7*:    7:d();\n"
                                         "        -:    0:Source:/x/b.cpp\n        1:    1:e();\n")
        self.assertEqual([(4, 2), (5, 0), (6, 0), (7, 7)], [(line.number, line.runs) for line in files["/x/a.cpp"]])
        self.assertEqual([(1, 1)], [(line.number, line.runs) for line in files["/x/b.cpp"]])

    def test_a_call_that_may_throw_counts_neither_way(self):
        self.assertEqual((2, 1), branches(merged(ASKED.format(line=2))))
        self.assertEqual((2, 0), branches(merged(NEVER.format(line=2))))

    def test_what_an_exception_alone_leads_to_counts_not(self):
        self.assertEqual((2, 1), branches(merged(ASKED.format(line=2) + CLEARED.format(line=2))))

    def test_all_ways_of_a_switch_count(self):
        self.assertEqual((3, 1), branches(merged("        3:    2:switch (x) {\n        3:    2-block  0\nbranch  0 taken 3\n"
                                                 "branch  1 taken 0\nbranch  2 taken 0 (fallthrough)\n")))


class Counts(unittest.TestCase):
    def test_lines_and_branches_of_a_file(self):
        file = merged(ASKED.format(line=1) + NEVER.format(line=2) + "        1:    4:a();\n")
        count = file.count
        self.assertEqual((3, 2, 4, 1), (count.lines, count.lines_covered, count.branches, count.branches_covered))
        self.assertEqual([2], file.lines)
        self.assertEqual([(1, 1, 2)], file.branches)

    def test_instances_of_a_template_are_one(self):
        other = ASKED.replace("taken 0 (fallthrough)", "taken 3 (fallthrough)").replace("branch  4 taken 3", "branch  4 taken 0")
        whole = "       6*:    2:    if (asked(x)) {\n"
        text = (whole + "------------------\nvoid f<int>():\n" + ASKED.format(line=2) + "------------------\nvoid f<double>():\n"
                + other.format(line=2) + "------------------\n")
        file = merged(text, NEVER.format(line=2))
        self.assertEqual((2, 2), branches(file))
        self.assertEqual(1, file.count.lines)

    def test_a_function_within_another_is_not(self):
        text = ("       6*:    2:    if (asked(x)) {\n------------------\nvoid f<int>():\n" + ASKED.format(line=2)
                + "------------------\nf<int>()::{lambda()#1}::operator()() const:\n" + ASKED.format(line=2) + "------------------\n")
        self.assertEqual((4, 2), branches(merged(text)))

    def test_of_instances_that_decide_differently_those_that_were_run_count(self):
        longer = NEVER + "    %%%%%:    {line}-block  3\nbranch  7 never executed\nbranch  8 never executed\n"
        self.assertEqual((2, 1), branches(merged(ASKED.format(line=2), longer.format(line=2))))

    def test_of_functions_compiled_for_their_own_sake_those_count_that_nobody_calls(self):
        called = "function _Z1fv called 1 returned 100%\n        1:    2:int f() {\n        1:    4:    return 1;\n"
        both = ("function _Z1fv called 0 returned 0%\n    #####:    2:int f() {\n    #####:    3:    int x = 1;\n    #####:    4:    return 1;\n"
                "function _Z1gv called 0 returned 0%\n    #####:    7:int g() {\n")
        result = check_coverage.Merged()
        result.take(check_coverage.read_gcov(HEAD + called)["/x/a.cpp"])
        result.take_uncalled(check_coverage.read_gcov(HEAD + both)["/x/a.cpp"])
        file = result.file(("words",) * 9)
        self.assertEqual((3, 2), (file.count.lines, file.count.lines_covered))
        self.assertEqual([7], file.lines)

    def test_brackets_alone_count_where_they_were_run_and_without_branches(self):
        file = merged("        1:    1:call();\n" + NEVER.format(line=2) + ASKED.format(line=3), words=("call();", "    });", "}  // namespace"))
        self.assertEqual((2, 2, 0), (file.count.lines, file.count.lines_covered, file.count.branches))

    def test_comparisons_that_the_compiler_writes_decide_nothing(self):
        made = ("friend bool operator==(const A&, const A&) = default;", "    double first_;", "    std::array<double, 3> xyz_ = {};")
        for words in made:
            self.assertEqual((0, 0), branches(merged(ASKED.format(line=1), words=(words,))))
        for words in ("if (x) y_ = 3;", "        return first_ && second_;", "first_ = a ? b : c;"):
            self.assertEqual((2, 1), branches(merged(ASKED.format(line=1), words=(words,))))

    def test_rooms(self):
        for name, room in {"include/samelight/white/impl/a.ipp": "white", "src/report/meter/page/a.cpp": "report", "src/c/a.cpp": "c",
                           "include/samelight/io/files/a.hpp": "io", "include/samelight/white_targets.hpp": "entries"}.items():
            self.assertEqual(room, check_coverage.room_of(name))

    def test_ranges(self):
        self.assertEqual("3-5 9 11-12", check_coverage.ranges([3, 4, 5, 9, 11, 12]))
        self.assertEqual("", check_coverage.ranges([]))


class Reports(unittest.TestCase):
    def faults(self, files, reasons):
        return check_coverage.report(files, reasons)[1]

    def test_all_covered_is_no_fault(self):
        said, faults = check_coverage.report({"src/c/a.cpp": file_of(20, 1)}, {})
        self.assertEqual([], faults)
        self.assertIn("20 of     21 lines   95.2 %", said[0])

    def test_a_room_below_the_goal_is_a_fault(self):
        faults = self.faults({"src/c/a.cpp": file_of(90, 10), "src/io/b.cpp": file_of(400, 0)}, {"src/c/a.cpp": "said"})
        self.assertEqual(["c: below 95 % of lines or 85 % of branches"], faults)

    def test_branches_below_the_goal_are_a_fault(self):
        ways = check_coverage.File({1: (TAKEN, [TAKEN, MISSED])})
        self.assertIn("all: below 95 % of lines or 85 % of branches", self.faults({"src/c/a.cpp": ways}, {}))

    def test_a_file_below_needs_a_reason(self):
        files = {"src/io/a.cpp": file_of(8, 6), "src/io/b.cpp": file_of(400, 0)}
        self.assertEqual(["src/io/a.cpp: below the goals, and no reason in uncovered.md"], self.faults(files, {}))
        self.assertEqual([], self.faults(files, {"src/io/a.cpp": "said"}))

    def test_of_a_few_lines_nothing_need_be_said(self):
        self.assertEqual([], self.faults({"src/io/a.cpp": file_of(1, 5), "src/io/b.cpp": file_of(400, 0)}, {}))

    def test_a_reason_that_is_not_needed_is_a_fault(self):
        self.assertEqual(["uncovered.md: src/io/b.cpp has a reason, and needs none"],
                         self.faults({"src/io/b.cpp": file_of(400, 0)}, {"src/io/b.cpp": "said"}))

    def test_what_was_not_run_is_shown_with_its_words(self):
        with tempfile.TemporaryDirectory() as folder:
            (pathlib.Path(folder) / "a.cpp").write_text("one\ntwo\n", encoding="utf-8")
            self.assertEqual(["a.cpp:2:     - two"], check_coverage.uncovered({"a.cpp": file_of(1, 1)}, pathlib.Path(folder)))

    def test_reasons_are_rows_of_a_table(self):
        self.assertEqual({"src/a.cpp": "a disk that is full"},
                         check_coverage.read_reasons("# Head\n\n| file | reason |\n|---|---|\n| `src/a.cpp` | a disk that is full |\n"))


if __name__ == "__main__":
    unittest.main()
