#!/usr/bin/env python3
"""Tests of data/generate_headers.py: its --check accepts the repository and finds every kind of fault in a copy.

    python3 -B tests/tables/test_generate_headers.py
"""

import hashlib
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
HEADERS = pathlib.Path("include/samelight/tables")


class Check(unittest.TestCase):
    """Each test damages a copy of data/ and of the headers in one way and reads what --check says."""

    def setUp(self) -> None:
        temporary = tempfile.TemporaryDirectory()
        self.addCleanup(temporary.cleanup)
        self.root = pathlib.Path(temporary.name)
        shutil.copytree(ROOT / "data", self.root / "data")
        shutil.copytree(ROOT / HEADERS, self.root / HEADERS)

    def run_generator(self, *options: str) -> tuple[int, list[str]]:
        command = [sys.executable, "-B", str(ROOT / "data/generate_headers.py"), "--root", str(self.root), *options]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        return done.returncode, done.stderr.splitlines()

    def assert_found(self, *beginnings: str) -> None:
        """--check ends with 1 and says exactly one line for each beginning, in order."""
        code, lines = self.run_generator("--check")
        self.assertEqual(code, 1)
        self.assertEqual(len(lines), len(beginnings), lines)
        for line, beginning in zip(lines, beginnings):
            self.assertTrue(line.startswith(beginning), line)

    def edit(self, file: str, old: str, new: str) -> None:
        path = self.root / file
        text = path.read_text(encoding="ascii")
        self.assertIn(old, text)
        path.write_text(text.replace(old, new, 1), encoding="ascii")

    def edit_table(self, name: str, old: str, new: str) -> None:
        """Changes a CSV file and the sha256 that the manifest states for it, so that only the change is wrong."""
        path = self.root / "data" / name
        before = hashlib.sha256(path.read_bytes()).hexdigest()
        self.edit(f"data/{name}", old, new)
        self.edit("data/manifest.csv", before, hashlib.sha256(path.read_bytes()).hexdigest())

    def test_the_repository_is_accepted(self) -> None:
        self.assertEqual(self.run_generator("--check"), (0, []))

    def test_every_single_byte_of_a_header_counts(self) -> None:
        path = self.root / HEADERS / "illuminant_c.hpp"
        good = path.read_bytes()
        for position in (0, len(good) // 2, len(good) - 2):
            path.write_bytes(good[:position] + bytes([good[position] ^ 1]) + good[position + 1:])
            self.assert_found("illuminant_c.hpp:")
        path.write_bytes(good[:-1])
        self.assert_found("illuminant_c.hpp:")
        path.write_bytes(good.replace(b"\n", b"\r\n"))
        self.assert_found("illuminant_c.hpp:1:")
        path.write_bytes(good)
        self.assertEqual(self.run_generator("--check"), (0, []))

    def test_a_changed_number_breaks_the_digest(self) -> None:
        self.edit("data/cie1931_2deg.csv", "0.0001299", "0.0001298")
        self.assert_found("cie1931_2deg.csv: sha256")

    def test_a_changed_number_with_its_digest_breaks_the_header(self) -> None:
        self.edit_table("cie1931_2deg.csv", "0.0001299", "0.0001298")
        self.assert_found("cie1931_2deg.hpp:21: differs")
        self.assertEqual(self.run_generator(), (0, []))
        self.assertEqual(self.run_generator("--check"), (0, []))
        self.assertIn("0.0001298, ", (self.root / HEADERS / "cie1931_2deg.hpp").read_text(encoding="ascii"))

    def test_a_missing_header(self) -> None:
        (self.root / HEADERS / "illuminant_a.hpp").unlink()
        self.assert_found("illuminant_a.hpp: missing")

    def test_a_missing_table(self) -> None:
        (self.root / "data/illuminant_a.csv").unlink()
        self.assert_found("illuminant_a.csv: manifest.csv has a row")

    def test_files_without_a_row(self) -> None:
        (self.root / "data/stray.csv").write_text("wavelength_nm,x\n", encoding="ascii")
        (self.root / HEADERS / "stray.hpp").write_text("#pragma once\n", encoding="ascii")
        self.assert_found("stray.csv: no row", "stray.hpp: no row")

    def test_a_row_taken_away(self) -> None:
        path = self.root / "data/manifest.csv"
        lines = path.read_text(encoding="ascii").splitlines(keepends=True)
        kept = [line for line in lines if not line.startswith("illuminant_a.csv")]
        path.write_text("".join(kept), encoding="ascii")
        self.assert_found("illuminant_a.csv: no row", "illuminant_a.hpp: no row")

    def test_range_step_count_and_columns(self) -> None:
        self.edit_table("illuminant_a.csv", "780,241.68\n", "")
        self.edit_table("illuminant_c.csv", "385,", "386,")
        self.edit_table("judd_vos_1978.csv", "x,y,z", "x,z,y")
        self.edit_table("daylight_basis.csv", "63.4,38.5,3.0", "63.4,38.5")
        self.edit_table("crt_primaries.csv", "2.544488655182779e-05", "nan")
        self.assert_found("judd_vos_1978.csv:1: header row", "illuminant_a.csv: 80 rows",
                          "illuminant_c.csv:3: wavelength 386", "daylight_basis.csv:2: wanted 4 numbers",
                          "crt_primaries.csv:2: wanted 4 numbers")

    def test_a_manifest_without_a_licence(self) -> None:
        self.edit("data/manifest.csv", ",Expat (Debian copyright file of psychtoolbox-3-common),", ",,")
        self.assert_found("manifest.csv:4: no licence")


if __name__ == "__main__":
    unittest.main()
