#!/usr/bin/env python3
"""Make include/samelight/tables/*.hpp from data/*.csv and data/manifest.csv, or check that they agree.

    python3 data/generate_headers.py            write the headers that are missing or differ
    python3 data/generate_headers.py --check    write nothing; a line for each difference, exit 1 if there is one

Standard library only. The numbers pass through as text: what stands in a CSV file stands in its header.
Both forms verify that every row of the manifest has its CSV file and every CSV file its row, that the sha256 of
each file is the one the manifest states, and that header row, range, step and count agree with it. --check also
compares each header to the byte and reports files that have no row.
"""

import argparse
import csv
import hashlib
import pathlib
import re
import sys
import textwrap
from decimal import Decimal, InvalidOperation
from math import isfinite

MANIFEST = "manifest.csv"
REQUIRED = ("file", "title", "edition", "source", "licence", "first_nm", "last_nm", "step_nm", "columns", "unit",
            "sha256")
NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?(e[-+]?[0-9]+)?")
NAME = re.compile(r"[a-z][a-z0-9_]*")
PLAIN = re.compile(r'[ !#-\[\]-~]*')  # printable ASCII without the quotation mark and the backslash
LINE = 116
FLAT_FROM = 16  # a table of so many columns or more becomes one array with a list of names


class Difference(Exception):
    """What is wrong with one file, as one line."""


def literal(text: str) -> str:
    """The text of a number as a C++ literal of type double: the same characters, and .0 behind a whole number."""
    return text if "." in text or "e" in text else text + ".0"


def parsed_manifest(path: pathlib.Path) -> list[dict[str, str]]:
    """The rows of the manifest; raises Difference where a field that must be there is missing or unusable."""
    try:
        text = path.read_bytes().decode("ascii")
    except (OSError, UnicodeDecodeError) as error:
        raise Difference(f"{path.name}: cannot be read as ASCII: {error}") from error
    rows = list(csv.DictReader(text.splitlines(), strict=True))
    seen: set[str] = set()
    for number, row in enumerate(rows, 2):
        where = f"{path.name}:{number}"
        if None in row or None in row.values():
            raise Difference(f"{where}: has more or fewer fields than the header row")
        missing = [field for field in REQUIRED if not row.get(field)]
        if missing:
            raise Difference(f"{where}: no {missing[0]}")
        stem, _, suffix = row["file"].partition(".")
        names = [stem, *row["columns"].split()]
        if suffix != "csv" or not all(NAME.fullmatch(name) for name in names):
            raise Difference(f"{where}: file and column names must be lower-case identifiers, the file in .csv")
        if row["file"] in seen:
            raise Difference(f"{where}: a second row for {row['file']}")
        if not all(PLAIN.fullmatch(row[field]) for field in ("title", "edition")):
            raise Difference(f"{where}: title or edition holds a character that a C++ string cannot carry as it is")
        seen.add(row["file"])
    if not rows:
        raise Difference(f"{path.name}: no rows")
    return rows


def columns_of(row: dict[str, str], data: pathlib.Path) -> list[list[str]]:
    """The columns of a table as texts, verified against its row of the manifest; raises Difference."""
    name = row["file"]
    path = data / name
    if not path.is_file():
        raise Difference(f"{name}: {MANIFEST} has a row for it and the file is missing")
    content = path.read_bytes()
    digest = hashlib.sha256(content).hexdigest()
    if digest != row["sha256"]:
        raise Difference(f"{name}: sha256 is {digest}, {MANIFEST} states {row['sha256']}")
    try:
        lines = content.decode("ascii").split("\n")
    except UnicodeDecodeError as error:
        raise Difference(f"{name}: not ASCII: {error}") from error
    if lines.pop() != "" or b"\r" in content:
        raise Difference(f"{name}: lines must end in LF, the last one too")
    wanted = ["wavelength_nm", *row["columns"].split()]
    cells = [line.split(",") for line in lines]
    if not cells or cells[0] != wanted:
        raise Difference(f"{name}:1: header row is not {','.join(wanted)}, which {MANIFEST} wants")
    verify_cells(name, cells[1:], len(wanted), row)
    return [list(column) for column in zip(*cells[1:])]


def verify_cells(name: str, cells: list[list[str]], width: int, row: dict[str, str]) -> None:
    """Raises Difference unless the cells are numbers on the range and step of the row."""
    try:
        first, last, step = (Decimal(row[field]) for field in ("first_nm", "last_nm", "step_nm"))
    except InvalidOperation as error:
        raise Difference(f"{name}: first_nm, last_nm and step_nm of {MANIFEST} must be numbers") from error
    if step <= 0 or last < first or (last - first) % step != 0:
        raise Difference(f"{name}: {MANIFEST} states {first} to {last} nm by {step}, no whole number of steps")
    count = int((last - first) / step) + 1
    if len(cells) != count:
        raise Difference(f"{name}: {len(cells)} rows, {first} to {last} nm by {step} takes {count}")
    for index, cell in enumerate(cells):
        if len(cell) != width or not all(NUMBER.fullmatch(text) and isfinite(float(text)) for text in cell):
            raise Difference(f"{name}:{index + 2}: wanted {width} numbers, found {','.join(cell)}")
        if Decimal(cell[0]) != first + index * step:
            raise Difference(f"{name}:{index + 2}: wavelength {cell[0]}, wanted {first + index * step}")


def comment(text: str) -> str:
    """Text as lines of a C++ comment."""
    return "\n".join("// " + line for line in textwrap.wrap(text, LINE - 3, break_long_words=False))


def array_of(name: str, numbers: list[str]) -> str:
    """The definition of one column."""
    body = textwrap.fill(", ".join(literal(number) for number in numbers), LINE, initial_indent="    ",
                         subsequent_indent="    ", break_long_words=False, break_on_hyphens=False)
    return f"inline constexpr std::array<double, {len(numbers)}> {name}{{{{\n{body}\n}}}};\n"


def flat_arrays(names: list[str], columns: list[list[str]]) -> list[str]:
    """The definitions for a table of many columns: their names, and all values, a column after the other."""
    body = textwrap.fill(", ".join(f'"{name}"' for name in names), LINE, initial_indent="    ",
                         subsequent_indent="    ", break_long_words=False, break_on_hyphens=False)
    return [
        f"inline constexpr int columns = {len(names)};\n",
        f"inline constexpr std::array<const char*, {len(names)}> names{{{{\n{body}\n}}}};\n",
        "// A column after the other, `count` values each.\n"
        + array_of("values", [number for column in columns for number in column]),
    ]


def header_of(row: dict[str, str], columns: list[list[str]]) -> str:
    """The whole text of a header; the first column is the wavelength and gives no array."""
    stem = row["file"].removesuffix(".csv")
    names = row["columns"].split()
    published = f" Published as {row['identifier']}." if row.get("identifier") else ""
    head = [
        "#pragma once",
        f"// Generated by data/generate_headers.py from data/{row['file']}; do not edit.",
        comment(f"{row['title']}, {row['edition']}. Columns: {row['unit']}."),
        comment(f"Source: {row['source']}.{published}"),
        comment(f"Licence: {row['licence']}. Full notice and authors: data/README.md, data/{MANIFEST}."),
        "// clang-format off",
        "#include <array>",
        "",
        f"namespace samelight::tables::{stem} {{",
        "",
        f'inline constexpr const char* title = "{row["title"]}";',
        f'inline constexpr const char* edition = "{row["edition"]}";',
        f"inline constexpr double first_nm = {literal(row['first_nm'])};",
        f"inline constexpr double step_nm = {literal(row['step_nm'])};",
        f"inline constexpr int count = {len(columns[0])};",
        "",
    ]
    if len(names) >= FLAT_FROM:
        arrays = flat_arrays(names, columns[1:])
    else:
        arrays = [array_of(name, column) for name, column in zip(names, columns[1:])]
    return "\n".join(head) + "\n" + "\n".join(arrays) + f"\n}}  // namespace samelight::tables::{stem}\n"


def expected(data: pathlib.Path) -> tuple[dict[str, str], list[str]]:
    """The headers the tables ask for, by file name, and a line for each thing wrong with the tables."""
    try:
        rows = parsed_manifest(data / MANIFEST)
    except (Difference, csv.Error) as difference:
        return {}, [str(difference)]
    headers: dict[str, str] = {}
    wrong: list[str] = []
    for row in rows:
        try:
            headers[row["file"].removesuffix(".csv") + ".hpp"] = header_of(row, columns_of(row, data))
        except Difference as difference:
            wrong.append(str(difference))
    known = {MANIFEST, *(row["file"] for row in rows)}
    wrong += [f"{path.name}: no row in {MANIFEST}" for path in sorted(data.glob("*.csv")) if path.name not in known]
    named = {row["file"].removesuffix(".csv") + ".hpp" for row in rows}
    wrong += [f"{path.name}: no row in {MANIFEST} asks for this header"
              for path in sorted((data.parent / "include/samelight/tables").glob("*")) if path.name not in named]
    return headers, wrong


def where_differs(path: pathlib.Path, text: str) -> str:
    """The first line where a header differs from the text it should hold, as one line."""
    if not path.is_file():
        return f"{path.name}: missing; run data/generate_headers.py"
    # Latin-1 gives every byte a character, so that a damaged header is still compared and reported.
    found, wanted = path.read_bytes().decode("latin-1").split("\n"), text.split("\n")
    pairs = enumerate(zip(found, wanted), 1)
    line = next((number for number, (one, other) in pairs if one != other), min(len(found), len(wanted)) + 1)
    return f"{path.name}:{line}: differs from what data/generate_headers.py makes"


def main() -> int:
    parser = argparse.ArgumentParser(description="Make include/samelight/tables/*.hpp from data/*.csv.")
    parser.add_argument("--check", action="store_true", help="write nothing; exit 1 with a line for each difference")
    parser.add_argument("--root", type=pathlib.Path, default=pathlib.Path(__file__).resolve().parents[1],
                        help="folder that holds data/ and include/ (default: the one above this script's)")
    arguments = parser.parse_args()
    folder = arguments.root / "include/samelight/tables"
    headers, wrong = expected(arguments.root / "data")
    for name, text in headers.items():
        path = folder / name
        if path.is_file() and path.read_bytes() == text.encode("ascii"):
            continue
        if arguments.check:
            wrong.append(where_differs(path, text))
        else:
            folder.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode("ascii"))
            print(f"{name}: written")
    for line in wrong:
        print(line, file=sys.stderr)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
