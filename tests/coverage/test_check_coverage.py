#!/usr/bin/env python3
"""check_coverage.py must count what was run, and find what is below the goals, or without a reason, or with a needless one."""
import pathlib
import tempfile
import unittest

import check_coverage

TAKEN, MISSED = 3, 0


def branch(count, kind=""):
    return {"count": count, "fallthrough": kind == "fallthrough", "throw": kind == "throw"}


def line(number, count, branches=(), function="f"):
    return {"line_number": number, "count": count, "branches": list(branches), "function_name": function}


def entry_of(lines, functions=(("f", 1),)):
    return {"lines": lines, "functions": [{"name": name, "start_line": start, "start_column": 1} for name, start in functions]}


def merged(*entries, words=("words",) * 9):
    result = check_coverage.Merged()
    for entry in entries:
        result.take(entry)
    return result.file(words)


def file_of(covered, missed):
    return check_coverage.File({n + 1: (TAKEN if n < covered else MISSED, []) for n in range(covered + missed)})


class Decisions(unittest.TestCase):
    def test_a_call_that_may_throw_counts_neither_way(self):
        self.assertEqual([], check_coverage.decisions([branch(TAKEN, "fallthrough"), branch(MISSED, "throw")]))
        self.assertEqual([], check_coverage.decisions([branch(MISSED, "throw"), branch(TAKEN, "fallthrough")]))

    def test_two_such_calls_and_the_condition_between(self):
        call = [branch(TAKEN, "fallthrough"), branch(MISSED, "throw")]
        asked = [branch(TAKEN, "fallthrough"), branch(MISSED)]
        self.assertEqual(asked, check_coverage.decisions([*call, *asked, *call]))
        self.assertEqual(asked, check_coverage.decisions([*reversed(call), *asked, *reversed(call)]))

    def test_all_ways_of_a_switch_count(self):
        ways = [branch(TAKEN), branch(MISSED), branch(MISSED)]
        self.assertEqual(ways, check_coverage.decisions(ways))


class Counts(unittest.TestCase):
    def test_lines_and_branches_of_a_file(self):
        asked = [branch(TAKEN, "fallthrough"), branch(MISSED)]
        file = merged(entry_of([line(1, TAKEN, asked), line(2, MISSED, [branch(MISSED, "fallthrough"), branch(MISSED)]), line(4, TAKEN)]))
        count = file.count
        self.assertEqual((3, 2, 4, 1), (count.lines, count.lines_covered, count.branches, count.branches_covered))
        self.assertEqual([2], file.lines)
        self.assertEqual([(1, 1, 2)], file.branches)

    def test_instances_of_a_template_are_one(self):
        one, other = [branch(TAKEN, "fallthrough"), branch(MISSED)], [branch(MISSED, "fallthrough"), branch(TAKEN)]
        file = merged(entry_of([line(1, TAKEN, one, "f<int>"), line(1, TAKEN, other, "f<double>")], [("f<int>", 1), ("f<double>", 1)]),
                      entry_of([line(1, MISSED, [branch(MISSED), branch(MISSED)], "f<char>")], [("f<char>", 1)]))
        self.assertEqual((2, 2), (file.count.branches, file.count.branches_covered))

    def test_a_function_within_another_is_not(self):
        one = [branch(TAKEN, "fallthrough"), branch(MISSED)]
        file = merged(entry_of([line(2, TAKEN, one, "outer"), line(2, TAKEN, one, "lambda")], [("outer", 1), ("lambda", 2)]))
        self.assertEqual((4, 2), (file.count.branches, file.count.branches_covered))

    def test_of_instances_that_decide_differently_those_that_were_run_count(self):
        two = [branch(TAKEN, "fallthrough"), branch(MISSED)]
        file = merged(entry_of([line(1, TAKEN, two, "f<1>"), line(1, MISSED, [branch(MISSED)] * 4, "f<2>")], [("f<1>", 1), ("f<2>", 1)]))
        self.assertEqual((2, 1), (file.count.branches, file.count.branches_covered))

    def test_brackets_alone_count_where_they_were_run_and_without_branches(self):
        lines = [line(1, TAKEN), line(2, MISSED, [branch(MISSED)] * 2), line(3, TAKEN, [branch(MISSED)] * 2)]
        file = merged(entry_of(lines), words=("call();", "    });", "}  // namespace"))
        self.assertEqual((2, 2, 0), (file.count.lines, file.count.lines_covered, file.count.branches))

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
        faults = self.faults({"src/c/a.cpp": file_of(18, 2), "src/io/b.cpp": file_of(400, 0)}, {"src/c/a.cpp": "said"})
        self.assertEqual(["c: below 95 % of lines or 85 % of branches"], faults)

    def test_branches_below_the_goal_are_a_fault(self):
        ways = check_coverage.File({1: (TAKEN, [TAKEN, MISSED])})
        self.assertIn("all: below 95 % of lines or 85 % of branches", self.faults({"src/c/a.cpp": ways}, {"src/c/a.cpp": "said"}))

    def test_a_file_below_needs_a_reason(self):
        files = {"src/io/a.cpp": file_of(1, 1), "src/io/b.cpp": file_of(400, 0)}
        self.assertEqual(["src/io/a.cpp: below the goals, and no reason in uncovered.md"], self.faults(files, {}))
        self.assertEqual([], self.faults(files, {"src/io/a.cpp": "said"}))

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
