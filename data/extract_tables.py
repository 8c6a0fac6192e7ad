#!/usr/bin/python3
"""Write the tables of data/ from the .mat files of Debian's package psychtoolbox-3-common.

This script is the record of where every number comes from. Building samelight does not need it: the CSV files
it writes are kept in the repository. It needs the Debian packages psychtoolbox-3-common and python3-scipy.

    /usr/bin/python3 data/extract_tables.py            write data/*.csv, refresh the sha256 column of the manifest
    /usr/bin/python3 data/extract_tables.py --check    write nothing; exit 1 if a file would change

Form of a table: ASCII, LF, a header row, wavelength_nm first, a row a wavelength. A number is written with the
fewest digits that give back the very double of the .mat file. Some source tables plainly have a fixed number of
decimals and carry rounding noise behind them (0.5879559999999999 for 0.587956); for those the table below states
the decimals, and the script refuses to run if rounding would move a number by more than such noise.
"""

import argparse
import csv
import hashlib
import io
import pathlib
import sys
from dataclasses import dataclass

import numpy as np
import scipy.io

import choose_reflectances

DEFAULT_FOLDER = "/usr/share/psychtoolbox-3/PsychColorimetricData/PsychColorimetricMatFiles"
ROUNDING_NOISE = 1e-12  # the noise found is below 1e-13; the last decimal of those tables is 1e-6 or 1e-5


@dataclass(frozen=True)
class Source:
    """A variable of the .mat file of the same name, the variable [first step count] beside it, its columns."""

    variable: str
    sampling: str
    columns: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A CSV file, the variables it is made from, and the decimals of the source where the text states them."""

    name: str
    sources: tuple[Source, ...]
    decimals: int | None = None


def single(name: str, variable: str, columns: str, decimals: int | None = None) -> Table:
    """A table made from one variable; its sampling is S_ and the variable's name without the prefix."""
    source = Source(variable, "S_" + variable.split("_", 1)[1], tuple(columns.split()))
    return Table(name, (source,), decimals)


TABLES = (
    single("cie1931_2deg", "T_xyz1931", "x y z"),
    single("cie1964_10deg", "T_xyz1964", "x y z"),
    single("cie2015_2deg", "T_xyzCIEPhys2", "x y z"),
    single("cie2015_10deg", "T_xyzCIEPhys10", "x y z"),
    single("cie2006_cones_2deg", "T_cones_ss2", "l m s"),
    single("cie2006_cones_10deg", "T_cones_ss10", "l m s"),
    single("cie2006_absorbance", "T_log10coneabsorbance_ss", "l m s", decimals=5),
    Table(
        "cie2006_lens",
        (
            Source("den_lens_cie_1", "S_lens_cie_1", ("ageing",)),
            Source("den_lens_cie_2", "S_lens_cie_2", ("fixed",)),
        ),
        decimals=6,
    ),
    single("cie2006_lens_total", "den_lens_ssf", "density"),
    single("cie2006_macula", "den_mac_bone", "density"),
    single("judd_vos_1978", "T_xyzJuddVos", "x y z"),
    single("illuminant_a", "spd_CIEA", "power"),
    single("illuminant_c", "spd_CIEC", "power"),
    single("daylight_basis", "B_cieday", "s0 s1 s2"),
    single("crt_primaries", "B_monitor", "red green blue"),
)


def read(folder: pathlib.Path, source: Source) -> tuple[np.ndarray, np.ndarray]:
    """Wavelengths (n) in nm and values (n x columns) of a source, whichever way the .mat file lays them."""
    content = scipy.io.loadmat(str(folder / (source.variable + ".mat")))
    first, step, count = (int(number) for number in content[source.sampling].ravel())
    values = np.asarray(content[source.variable], dtype=float)
    if values.shape == (len(source.columns), count):
        values = values.T
    if values.shape != (count, len(source.columns)):
        raise SystemExit(f"{source.variable}.mat: {values.shape} values, wanted {count} rows of {source.columns}")
    if not np.all(np.isfinite(values)):
        raise SystemExit(f"{source.variable}.mat: holds a value that is not finite")
    return first + step * np.arange(count), values


def text_of(value: float, decimals: int | None, where: str) -> str:
    """The shortest text that reads back as the value; rounded first where the source has fixed decimals."""
    number = float(value)
    if decimals is not None:
        rounded = round(number, decimals)
        if abs(rounded - number) > ROUNDING_NOISE:
            raise SystemExit(f"{where}: {number!r} has more than {decimals} decimals")
        number = rounded
    return repr(number + 0.0)  # adding 0.0 turns -0.0 into 0.0


def check_primaries(folder: pathlib.Path, wavelengths: np.ndarray, primaries: np.ndarray) -> None:
    """Stop unless the columns really are red, green and blue, by their CIE 1931 chromaticities.

    The package does not say which column is which. Bounds: red x > 0.55, green y > 0.55, blue y < 0.15.
    """
    grid, cmf = read(folder, Source("T_xyz1931", "S_xyz1931", ("x", "y", "z")))
    xyz = cmf[np.searchsorted(grid, wavelengths)].T @ primaries
    chromaticity = xyz / xyz.sum(axis=0)
    red, green, blue = chromaticity.T
    if not (red[0] > 0.55 and green[1] > 0.55 and blue[1] < 0.15):
        raise SystemExit(f"B_monitor.mat: the columns are not red, green, blue: chromaticities {chromaticity.T}")


def csv_of(folder: pathlib.Path, table: Table) -> str:
    """The whole text of a table's CSV file."""
    parts = [read(folder, source) for source in table.sources]
    wavelengths = parts[0][0]
    if not all(np.array_equal(wavelengths, other) for other, _ in parts):
        raise SystemExit(f"{table.name}: its parts are not on the same wavelengths")
    values = np.hstack([part for _, part in parts])
    if table.name == "crt_primaries":
        check_primaries(folder, wavelengths, values)
    columns = [name for source in table.sources for name in source.columns]
    return csv_text(table.name, wavelengths, columns, values, table.decimals)


def csv_text(name: str, wavelengths: np.ndarray, columns: list[str], values: np.ndarray, decimals: int | None) -> str:
    """A CSV file of values (n x columns) as text."""
    lines = [",".join(["wavelength_nm", *columns])]
    for wavelength, row in zip(wavelengths, values):
        where = f"{name} at {wavelength} nm"
        lines.append(",".join([str(wavelength), *(text_of(value, decimals, where) for value in row)]))
    return "\n".join(lines) + "\n"


def manifest_with(manifest: str, digests: dict[str, str]) -> str:
    """The manifest with the sha256 column of the written files refreshed and everything else as it was."""
    reader = csv.DictReader(io.StringIO(manifest))
    rows = list(reader)
    out = io.StringIO()
    writer = csv.DictWriter(out, reader.fieldnames, lineterminator="\n")
    writer.writeheader()
    for row in rows:
        row["sha256"] = digests.get(row["file"], row["sha256"])
        writer.writerow(row)
    return out.getvalue()


def main() -> int:
    parser = argparse.ArgumentParser(description="Write data/*.csv from the .mat files of psychtoolbox-3-common.")
    parser.add_argument("--from", dest="folder", type=pathlib.Path, default=pathlib.Path(DEFAULT_FOLDER),
                        help="folder of the .mat files (default: %(default)s)")
    parser.add_argument("--to", type=pathlib.Path, default=pathlib.Path(__file__).resolve().parent,
                        help="folder of the tables and of manifest.csv (default: where this script lies)")
    parser.add_argument("--check", action="store_true", help="write nothing; exit 1 if a file would change")
    arguments = parser.parse_args()
    if not arguments.folder.is_dir():
        print(f"extract_tables: no folder {arguments.folder}; install psychtoolbox-3-common or give --from",
              file=sys.stderr)
        return 1

    texts = {table.name + ".csv": csv_of(arguments.folder, table) for table in TABLES}
    texts["reflectances.csv"] = csv_text("reflectances", *choose_reflectances.choose(arguments.folder), None)
    digests = {name: hashlib.sha256(text.encode("ascii")).hexdigest() for name, text in texts.items()}
    manifest = arguments.to / "manifest.csv"
    if manifest.is_file():
        texts["manifest.csv"] = manifest_with(manifest.read_text(encoding="ascii"), digests)

    changed = 0
    for name, text in texts.items():
        path = arguments.to / name
        if path.is_file() and path.read_bytes() == text.encode("ascii"):
            continue
        changed += 1
        print(f"{name}: {'differs from the source' if arguments.check else 'written'}")
        if not arguments.check:
            path.write_bytes(text.encode("ascii"))
    return 1 if arguments.check and changed else 0


if __name__ == "__main__":
    sys.exit(main())
