#!/usr/bin/env python3
"""check_twin.py must tell each kind of bad twin. Usage: test_check_twin.py COMPILER"""
import pathlib
import sys
import tempfile
import unittest

import check_twin

COMPILER = sys.argv.pop() if len(sys.argv) > 1 else "c++"
GOOD = '''// must fail: deleted
struct Length { Length(int) = delete; Length() = default; };
#ifdef MUST_FAIL
Length length(1);
#else
Length length;
#endif
'''


class CheckTwin(unittest.TestCase):
    def check(self, text):
        with tempfile.TemporaryDirectory() as folder:
            twin = pathlib.Path(folder) / "twin.cpp"
            twin.write_text(text, encoding="utf-8")
            flags = pathlib.Path(folder) / "flags"
            flags.write_text("", encoding="utf-8")
            return check_twin.check(COMPILER, flags, twin)

    def test_a_good_twin_passes(self):
        self.assertIsNone(self.check(GOOD))

    def test_failing_for_another_reason_is_told(self):
        self.assertIn("does not match", self.check(GOOD.replace("fail: deleted", "fail: narrowing")))

    def test_compiling_with_must_fail_is_told(self):
        self.assertIn("and must not", self.check(GOOD.replace(" = delete", " {}")))

    def test_a_broken_good_part_is_told(self):
        self.assertIn("that must compile does not", self.check(GOOD.replace("Length length;", "Width length;")))

    def test_a_twin_without_its_marks_is_told(self):
        self.assertIn("wanted a first line", self.check(GOOD.replace("// must fail: deleted\n", "")))
        self.assertIn("wanted a first line", self.check(GOOD.replace("MUST_FAIL", "MUST_FALL")))


if __name__ == "__main__":
    unittest.main()
