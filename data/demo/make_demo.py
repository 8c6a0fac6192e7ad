#!/usr/bin/env python3
"""Makes the demo's measurement files. Everything in them is invented: no display was measured.

The scenario: the Lantern Room, a small screening room with four displays that should look alike. Each file is a built-in generic
panel (`samelight panel NAME`) made into "a unit": its bands moved by a nanometre or so, seen through an instrument's slit, scaled to
a luminance, with noise, and written in the dress of some instrument's export. The noise comes from a fixed seed, so that the same
files come out again.

Usage: make_demo.py COMMAND FOLDER     (COMMAND: the built samelight; FOLDER: where the files go)
"""
import math
import pathlib
import random
import subprocess
import sys


def generic(command: str, name: str) -> dict[str, list[float]]:
    """The columns of a built-in panel on 380-780 nm by 1 nm."""
    text = subprocess.run([command, "panel", name], check=True, capture_output=True, text=True).stdout
    rows = [line.split(",") for line in text.splitlines() if line and not line.startswith("#")]
    return {head: [float(row[i]) for row in rows[1:]] for i, head in enumerate(rows[0]) if head != "wavelength_nm"}


def at(values: list[float], nm: float) -> float:
    position = nm - 380.0
    if position < 0 or position > 400:
        return 0.0
    i = min(int(position), 399)
    return values[i] + (position - i) * (values[i + 1] - values[i])


def measured(values: list[float], shift: float, slit: float, step: float, last: float) -> list[float]:
    """`values` moved by `shift` nm, seen through a triangular slit of full width `slit` nm at half maximum, every `step` nm."""
    result = []
    for k in range(int((last - 380.0) / step) + 1):
        centre = 380.0 + k * step - shift
        weights = [(d, 1.0 - abs(d) / slit) for d in (j * 0.1 for j in range(-int(10 * slit), int(10 * slit) + 1))]
        result.append(sum(w * at(values, centre + d) for d, w in weights) / sum(w for _, w in weights))
    return result


def luminance_scale(command: str, columns: dict[str, list[float]], step: float, wanted: float) -> float:
    """What makes the white of `columns` read `wanted` cd/m2, in W/(sr m2 nm)."""
    text = subprocess.run([command, "observer", "cie1931-2deg"], check=True, capture_output=True, text=True).stdout
    rows = [line.split(",") for line in text.splitlines() if line and not line.startswith("#")][1:]
    y = {float(row[0]): float(row[2]) for row in rows}
    white = columns["white"]
    total = sum(white[k] * y.get(380.0 + k * step, 0.0) for k in range(len(white))) * step * 683.0
    return wanted / total


def unit(command: str, name: str, shifts: dict[str, float], slit: float, step: float, last: float, cd_m2: float,
         black_cd_m2: float, seed: int) -> dict[str, list[float]]:
    """A unit's measured columns; the white follows the primaries' shifts, its own emitter the mean of them."""
    source = generic(command, name)
    columns = {c: measured(source[c], shifts[c], slit, step, last) for c in ("red", "green", "blue")}
    if "white" in source:
        columns["white"] = measured(source["white"], sum(shifts.values()) / 3.0, slit, step, last)
    else:
        columns["white"] = [r + g + b for r, g, b in zip(columns["red"], columns["green"], columns["blue"])]
    scale = luminance_scale(command, columns, step, cd_m2)
    leak = [0.6 * w + 0.4 * b for w, b in zip(columns["white"], columns["blue"])]  # black leaks bluish
    black = [black_cd_m2 / cd_m2 * v for v in leak]
    for c in columns:
        columns[c] = [v + k for v, k in zip(columns[c], black)]
    columns["black"] = black
    noise = random.Random(seed)
    peak = max(columns["white"])
    return {c: [scale * (v + noise.gauss(0.0, 2e-4 * math.sqrt(peak * max(v, 0.0)) + 4e-6 * peak)) for v in values]
            for c, values in columns.items()}


def write(path: pathlib.Path, data: bytes) -> None:
    path.write_bytes(data)
    print(f"{path.name}: {len(data)} bytes")


def plain(columns: dict[str, list[float]], step: float) -> bytes:
    lines = ["# Invented demo data. The Lantern Room, grading monitor (separate red, green and blue emitters).",
             "# spectral radiance, W/(sr m2 nm); slit 4 nm", "wavelength_nm," + ",".join(columns)]
    for k in range(len(columns["red"])):
        lines.append(f"{380 + k * step:g}," + ",".join(f"{columns[c][k]:.6g}" for c in columns))
    return ("\n".join(lines) + "\n").encode()


def semicolons(columns: dict[str, list[float]], step: float, titles: dict[str, str], what: str) -> bytes:
    comma = lambda text: text.replace(".", ",")
    lines = ["Messprotokoll;INVENTED DEMO DATA", f"Ort;Lantern Room, {what}", "Datum;14.03.2025 10:22", "Spaltbreite [nm];4,0",
             "Einheit;W/(sr m² nm)", "", "Wellenlänge [nm];" + ";".join(titles[c] for c in titles) + ";"]
    for k in range(len(columns["red"])):
        lines.append(f"{380 + k * step:g};" + ";".join(comma(f"{columns[c][k]:.5E}") for c in titles) + ";")
    return ("\r\n".join(lines) + "\r\n").encode("latin-1")


def across(columns: dict[str, list[float]], step: float) -> bytes:
    lines = ["Session\tINVENTED DEMO DATA, Lantern Room, desk display", "Radiance unit\tmW/(sr m2 nm)",
             "Sample\t" + "\t".join(f"{380 + k * step:g}nm" for k in range(len(columns["red"])))]
    for c in ("white", "red", "green", "blue", "black"):
        lines.append(c + "\t" + "\t".join(f"{1000.0 * v:.5f}" for v in columns[c]))
    return b"\xef\xbb\xbf" + ("\r\n".join(lines) + "\r\n").encode()


def descending(columns: dict[str, list[float]], step: float) -> bytes:
    lines = ["\"Instrument\",\"INVENTED DEMO DATA\"", "\"Place\",\"Lantern Room, foyer display\"", "", "nm,W,R,G,B,K"]
    for k in reversed(range(len(columns["red"]))):
        lines.append(f"{380 + k * step:g}," + ",".join(f"{columns[c][k]:.6e}" for c in ("white", "red", "green", "blue", "black")))
    return ("\r\n".join(lines) + "\r\n").encode("utf-16")


def dimly_read(columns: dict[str, list[float]], share: float, seed: int) -> dict[str, list[float]]:
    """`columns` with more noise, `share` of the brightest peak: an instrument that looks at a dim screen."""
    noise = random.Random(seed)
    peak = max(max(values) for values in columns.values())
    return {c: [v + noise.gauss(0.0, share * peak) for v in values] for c, values in columns.items()}


def single(values: list[float], step: float, what: str) -> bytes:
    lines = [f"# Invented demo data. The Lantern Room, {what}.", "# W/(sr m2 nm)", "wavelength_nm,Sample"]
    return ("\n".join(lines + [f"{380 + k * step:g},{v:.6g}" for k, v in enumerate(values)]) + "\n").encode()


def numbered(columns: dict[str, list[float]], step: float, order: tuple[str, ...], what: str) -> bytes:
    lines = [f"Session;INVENTED DEMO DATA, Lantern Room, {what}", "Order;" + ", ".join(order), "Unit;mW/(sr m2 nm)",
             "Wavelength;" + ";".join(f"Measurement {k}" for k in range(1, len(order) + 1))]
    for k in range(len(columns["red"])):
        lines.append(f"{380 + k * step:g};" + ";".join(f"{1000.0 * columns[c][k]:.5g}" for c in order))
    return ("\r\n".join(lines) + "\r\n").encode()


def french(columns: dict[str, list[float]], step: float, what: str) -> bytes:
    titles = {"white": "Blanc", "red": "Rouge", "green": "Vert", "blue": "Bleu", "black": "Noir"}
    lines = ["Remarque\tDONNÉES INVENTÉES (demo data)", f"Lieu\tLantern Room, {what}", "Unité\tW/(sr m² nm)",
             "Longueur d’onde (nm)\t" + "\t".join(titles.values())]
    for k in range(len(columns["red"])):
        lines.append(f"{380 + k * step:g}\t" + "\t".join(f"{columns[c][k]:.5E}".replace(".", ",") for c in titles))
    return ("\r\n".join(lines) + "\r\n").encode()


def in_numbers(command: str, columns: dict[str, list[float]], step: float, what: str) -> bytes:
    """What an instrument without spectra reads of it: x, y, Y of CIE 1931, to its last shown digit."""
    text = subprocess.run([command, "observer", "cie1931-2deg"], check=True, capture_output=True, text=True).stdout
    rows = [line.split(",") for line in text.splitlines() if line and not line.startswith("#")][1:]
    table = {float(row[0]): [float(v) for v in row[1:4]] for row in rows}
    lines = [f"# Invented demo data. The Lantern Room, {what}, as read by an instrument without spectra.", "name,x,y,Y"]
    for c in ("red", "green", "blue", "white", "black"):
        X, Y, Z = (683.0 * step * sum(v * table.get(380.0 + k * step, [0.0] * 3)[i] for k, v in enumerate(columns[c])) for i in range(3))
        lines.append(f"{c},{X / (X + Y + Z):.4f},{Y / (X + Y + Z):.4f},{Y:.4g}")
    return ("\n".join(lines) + "\n").encode()


def main() -> None:
    command, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    grading = unit(command, "oled-rgb", {"red": 1.1, "green": -0.8, "blue": 0.6}, 4.0, 1.0, 780.0, 100.0, 0.0006, 11)
    write(folder / "grading-monitor.csv", plain(grading, 1.0))
    client = unit(command, "oled-white", {"red": -0.7, "green": 0.9, "blue": -0.4}, 4.0, 2.0, 780.0, 147.0, 0.0006, 12)
    titles = {"red": "Red", "green": "Green", "blue": "Blue", "white": "White", "black": "Black"}
    write(folder / "client-set.csv", semicolons(client, 2.0, titles, "client's set"))
    desk = unit(command, "lcd-narrow-red", {"red": 0.3, "green": 1.4, "blue": -1.0}, 2.0, 1.0, 780.0, 121.0, 0.11, 13)
    write(folder / "desk-display.csv", across(desk, 1.0))
    foyer = unit(command, "lcd-quantum-dot", {"red": -1.6, "green": 1.2, "blue": 0.9}, 5.0, 4.0, 780.0, 210.0, 0.06, 14)
    write(folder / "foyer-display.csv", descending(foyer, 4.0))
    # The client's set in its cinema mode, after someone set it by the usual one-for-all offset: only white was measured.
    now = [0.86 * w - 0.022 * r - 0.009 * g + 0.004 * b
           for w, r, g, b in zip(client["white"], client["red"], client["green"], client["blue"])]
    columns = {"red": now, "white": now}
    write(folder / "client-set-now.csv", semicolons(columns, 2.0, {"white": "White"}, "client's set, cinema mode, white as it stands"))
    # Three more, as others bring them: a file for each light, numbered columns, another language.
    projector = unit(command, "laser-rgb", {"red": 0.4, "green": -0.6, "blue": 0.3}, 4.0, 2.0, 780.0, 48.0, 0.02, 15)
    for light, values in dimly_read(projector, 0.004, 16).items():
        write(folder / f"projector-{light}.csv", single(values, 2.0, f"projector, {light}"))
    hall = unit(command, "oled-quantum-dot", {"red": 0.8, "green": 0.5, "blue": -0.7}, 4.0, 1.0, 780.0, 180.0, 0.0008, 17)
    write(folder / "hall-panel.csv", numbered(hall, 1.0, ("white", "red", "green", "blue", "black"), "hall panel"))
    tablet = unit(command, "lcd-white-led", {"red": -0.5, "green": 0.6, "blue": 1.1}, 5.0, 5.0, 780.0, 310.0, 0.25, 18)
    write(folder / "tablet.csv", french(tablet, 5.0, "tablet"))
    # And one of which only numbers are known.
    bar = unit(command, "oled-rgb", {"red": -0.9, "green": 0.7, "blue": 0.4}, 4.0, 1.0, 780.0, 88.0, 0.0005, 19)
    write(folder / "bar-screen.csv", in_numbers(command, bar, 1.0, "bar screen"))


if __name__ == "__main__":
    main()
