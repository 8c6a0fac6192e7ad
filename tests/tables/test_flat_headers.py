#!/usr/bin/env python3
"""Tests of the flat form in which data/generate_headers.py writes tables of many columns.

    python3 -B tests/tables/test_flat_headers.py
"""

import csv
import pathlib
import re
import sys
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "data"))

import generate_headers  # noqa: E402


def row_of(columns: list[str]) -> dict[str, str]:
    return {"file": "made_up.csv", "title": "Made up", "edition": "none", "source": "this test", "licence": "none",
            "first_nm": "400", "last_nm": "410", "step_nm": "10", "columns": " ".join(columns), "unit": "1",
            "sha256": "-"}


class FlatForm(unittest.TestCase):
    def test_many_columns_become_one_array_a_column_after_the_other(self) -> None:
        names = [f"c{i}" for i in range(generate_headers.FLAT_FROM)]
        columns = [["400", "410"], *([str(i), f"{i}.5"] for i in range(len(names)))]
        header = generate_headers.header_of(row_of(names), columns)
        self.assertIn(f"inline constexpr int columns = {len(names)};", header)
        self.assertIn(f"std::array<double, {2 * len(names)}> values", header)
        numbers = re.search(r"values\{\{\s*(.*?)\s*\}\}", header, re.DOTALL).group(1)
        self.assertEqual([float(text) for text in numbers.split(",")],
                         [float(text) for column in columns[1:] for text in column])
        self.assertEqual(re.findall(r'"(c\d+)"', header), names)

    def test_fewer_columns_keep_an_array_each(self) -> None:
        names = [f"c{i}" for i in range(generate_headers.FLAT_FROM - 1)]
        columns = [["400", "410"], *(["1", "2"] for _ in names)]
        header = generate_headers.header_of(row_of(names), columns)
        self.assertNotIn("values", header)
        self.assertIn("inline constexpr std::array<double, 2> c3{{", header)

    def test_the_reflectances_are_those_of_their_table(self) -> None:
        with (ROOT / "data/reflectances.csv").open(newline="", encoding="ascii") as file:
            rows = list(csv.reader(file))
        header = (ROOT / "include/samelight/tables/reflectances.hpp").read_text(encoding="ascii")
        numbers = re.search(r"values\{\{\s*(.*?)\s*\}\}", header, re.DOTALL).group(1).split(",")
        wanted = [row[j] for j in range(1, len(rows[0])) for row in rows[1:]]
        self.assertEqual([float(text) for text in numbers], [float(text) for text in wanted])


if __name__ == "__main__":
    unittest.main()
