#!/usr/bin/env python3
"""check_rooms.py must report each kind of fault, planted in a small tree, and nothing else."""
import pathlib
import tempfile
import unittest

import check_rooms

ALLOWED = check_rooms.read_rooms(check_rooms.ROOMS_FILE.read_text(encoding="utf-8"))


class CheckRooms(unittest.TestCase):
    def faults(self, files):
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            for name, text in files.items():
                path = root / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(text, encoding="utf-8")
            return check_rooms.check(root, ALLOWED)[0]

    def assert_one_fault(self, name, text, expected):
        faults = self.faults({name: text})
        self.assertEqual(len(faults), 1, faults)
        self.assertIn(expected, faults[0])

    def test_a_good_tree_has_no_fault(self):
        self.assertEqual([], self.faults({
            "include/samelight/samelight.hpp": '#include "samelight/check/gradient.hpp"\n'
                                               '#include "samelight/metamerism/index.hpp"\n',
            "include/samelight/colour/space.hpp": '#include <cmath>\n#include "samelight/numeric/error.hpp"\n'
                                                  '#include "samelight/colour/offset.hpp"\n',
            "include/samelight/colour/space_batch.hpp": "#include <xsimd/xsimd.hpp>\n",
            "src/io/files/reader.cpp": '#include "io/text/lexer.hpp"\n#include "samelight/white/target.hpp"\n',
            "src/io/text/lexer.hpp": "#include <string>\n",
            **{f"include/samelight/white/a{number}.hpp": "" for number in range(20)},
        }))

    def test_upwards_is_a_fault(self):
        self.assert_one_fault("include/samelight/numeric/a.hpp", '#include "samelight/colour/b.hpp"\n',
                              "a.hpp:1: numeric may not include colour")

    def test_angle_brackets_and_odd_spaces_are_seen(self):
        self.assert_one_fault("include/samelight/tables/a.hpp", "\n #  include <samelight/numeric/b.hpp>\n",
                              "a.hpp:2: tables may not include numeric")

    def test_the_three_uses_of_the_map_do_not_know_each_other(self):
        uses = ("white", "metamerism", "meter")
        for one in uses:
            for other in uses:
                if one != other:
                    self.assert_one_fault(f"include/samelight/{one}/a.hpp",
                                          f'#include "samelight/{other}/b.hpp"\n',
                                          f"{one} may not include {other}")

    def test_compiled_sources_belong_to_their_room(self):
        self.assert_one_fault("src/io/a.cpp", '#include "samelight/report/b.hpp"\n',
                              "io may not include report")

    def test_a_private_header_is_its_rooms_own(self):
        files = {"src/io/text/lexer.hpp": "#include <string>\n", "src/report/words/a.cpp": '#include "io/text/lexer.hpp"\n'}
        self.assertEqual(1, len(self.faults(files)))
        for target in ("lexer.hpp", "io/text/none.hpp", "io/words/../text/lexer.hpp"):
            files = {"src/io/text/lexer.hpp": "#include <string>\n", "src/io/text/a.cpp": f'#include "{target}"\n'}
            self.assertEqual(1, len(self.faults(files)), target)

    def test_folders_in_a_circle(self):
        files = {"src/io/a/a.hpp": '#include "io/b/b.hpp"\n', "src/io/b/b.hpp": '#include "io/c/c.hpp"\n', "src/io/c/c.hpp": ""}
        self.assertEqual([], self.faults(files))
        files["src/io/c/c.hpp"] = '#include "io/a/a.hpp"\n'
        self.assertEqual(["src/io/a: reaches", "src/io/b: reaches", "src/io/c: reaches"], [f[:17] for f in self.faults(files)])

    def test_a_crowded_folder(self):
        faults = self.faults({f"src/io/text/a{number}.hpp": "" for number in range(21)})
        self.assertEqual(["src/io/text: 21 files at one level, wanted at most 20"], faults)

    def test_the_umbrella_is_for_the_header_only_rooms(self):
        self.assert_one_fault("include/samelight/samelight.hpp", '#include "samelight/io/a.hpp"\n',
                              "umbrella may not include io")
        self.assert_one_fault("include/samelight/white/a.hpp", '#include "samelight/samelight.hpp"\n',
                              "white may not include umbrella")

    def test_entry_headers_hold_includes_only_and_are_named_by_the_index(self):
        index = {"include/samelight/samelight.hpp": '#pragma once\n// white.hpp  a white\n#include "samelight/white.hpp"\n'}
        good = '#pragma once\n// For a white.\n#include "samelight/numeric/error.hpp"\n'
        self.assertEqual([], self.faults({**index, "include/samelight/white.hpp": good}))
        faults = self.faults({**index, "include/samelight/white.hpp": good + "int x;\n"})
        self.assertEqual(len(faults), 1, faults)
        self.assertIn("#include lines only", faults[0])
        faults = self.faults({**index, "include/samelight/white.hpp": good, "include/samelight/other.hpp": good})
        self.assertEqual(len(faults), 1, faults)
        self.assertIn("does not name it", faults[0])

    def test_simd_library_only_in_batch_headers(self):
        for name in ("include/samelight/colour/a.hpp", "src/io/a.cpp", "tools/samelight/a.cpp"):
            self.assert_one_fault(name, "#include <xsimd/xsimd.hpp>\n", "only *_batch.hpp")

    def test_ways_round_the_rule(self):
        self.assert_one_fault("include/samelight/numeric/a.hpp", '#include "../colour/b.hpp"\n', "should be")
        self.assert_one_fault("include/samelight/numeric/a.hpp",
                              '#include "samelight/numeric/../colour/b.hpp"\n', "no room")
        self.assert_one_fault("include/samelight/attic/a.hpp", "#include <cmath>\n", "no room")
        self.assert_one_fault("include/samelight/loose.hpp", "#include <cmath>\n", "no room")

    def test_lower_rooms_do_not_know_the_command(self):
        for wrong in ('f("no --columns");', 'f("--" + role);', 'throw Error(ErrorKind::input, "meter fit", found, "more");',
                      'Error(\n    ErrorKind::shape, ErrorPlace{"spectrum, red"}, "a", "b");'):
            self.assert_one_fault("include/samelight/assess/impl/a.ipp", wrong, "only report and tools know the command")
            self.assertEqual([], self.faults({"src/report/white/a.cpp": wrong, "tools/samelight/a.cpp": wrong}), wrong)
        for right in ('// f("--columns")\n', "--count;", 'f(" -- ");', 'Error(ErrorKind::input, "meter " + name, "a", "b");',
                      'Error(ErrorKind::input, "observer", "white", "b");'):
            self.assertEqual([], self.faults({"src/io/text/a.cpp": right}), right)

    def test_the_room_list_is_checked(self):
        for text in ("a: b\nb:\n", "a:\na:\n", "a b\n"):
            with self.assertRaises(ValueError):
                check_rooms.read_rooms(text)


if __name__ == "__main__":
    unittest.main()
