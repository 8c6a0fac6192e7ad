#!/usr/bin/env python3
"""Makes the demo's paired readings. Everything in them is invented: no display and no meter was measured.

Two displays of make_demo.py, the grading monitor and the client's set, read by a spectroradiometer (the CIE 1931 observer) and by a
filter meter whose filters miss their target by about 5 % (CIE 1931's rows moved by 2 nm and stretched by 3 %, scaled to read
illuminant A right). Five rounds of white, red, green, blue, yellow, cyan, grey and white again; five readings of black. Noise
from a fixed seed, so that the same files come out again: .0002 in x and y, 0.4 % in Y, the display's own flicker of 0.3 % in both.

Usage: make_readings.py FOLDER     (where make_demo.py's files are, and these go)
"""
import csv
import math
import pathlib
import random
import sys

HERE = pathlib.Path(__file__).resolve().parent


def observer() -> list[tuple[float, float, float, float]]:
    rows = list(csv.reader((HERE.parent / "cie1931_2deg.csv").open()))
    return [tuple(float(v) for v in row) for row in rows if row and row[0][:1].isdigit()]


OBSERVER = {row[0]: row[1:] for row in observer()}


def row_at(k: int, nm: float) -> float:
    """Row k of CIE 1931, linear between its whole nanometres."""
    low = math.floor(nm)
    t = nm - low
    return (1 - t) * OBSERVER.get(low, (0, 0, 0))[k] + t * OBSERVER.get(low + 1, (0, 0, 0))[k]


def meter_row(k: int, nm: float) -> float:
    centre = (599.0, 555.0, 445.0)[k]
    return row_at(k, centre + (nm - 2.0 - centre) / 1.03)


def lamp(nm: float) -> float:
    return (560 / nm) ** 5 / (math.exp(1.435e7 / (2848 * nm)) - 1)


SCALE = [sum(lamp(nm) * row_at(k, nm) for nm in range(380, 781)) / sum(lamp(nm) * meter_row(k, nm) for nm in range(380, 781))
         for k in range(3)]


def spectra(path: pathlib.Path) -> tuple[list[float], dict[str, list[float]]]:
    """The columns of a file of make_demo.py, with commas and points or semicolons and commas."""
    text = "\n".join(line for line in path.read_bytes().decode("latin-1").splitlines() if not line.startswith("#"))
    semicolons = ";" in text
    rows = [line.replace(",", ".").split(";") if semicolons else line.split(",") for line in text.splitlines()]
    heads = next(row for row in rows if "red" in [c.lower() for c in row])
    table = [row for row in rows if row[0][:3].isdigit()]
    nm = [float(row[0]) for row in table]
    return nm, {h.lower(): [float(row[i]) for row in table] for i, h in enumerate(heads) if i > 0 and h}


def read(nm: list[float], light: list[float], row, scale=(1.0, 1.0, 1.0)) -> list[float]:
    step = nm[1] - nm[0]
    return [683.0 * step * scale[k] * sum(v * row(k, w) for v, w in zip(light, nm)) for k in range(3)]


def noisy(xyz: list[float], flicker: float, noise: random.Random, black: bool) -> list[float]:
    if black:
        return [v + noise.gauss(0.0, 2e-5) for v in xyz]
    total = sum(xyz)
    x, y = xyz[0] / total + noise.gauss(0.0, 2e-4), xyz[1] / total + noise.gauss(0.0, 2e-4)
    luminance = xyz[1] * flicker * (1.0 + noise.gauss(0.0, 4e-3))
    return [x / y * luminance, luminance, (1 - x - y) / y * luminance]


def session(path: pathlib.Path, seed: int):
    """patch, instrument, round, X, Y, Z, seconds, one reading after the other."""
    nm, columns = spectra(path)
    clean = {c: [v - k for v, k in zip(columns[c], columns["black"])] for c in columns}
    add = lambda *names: [sum(v) + k for v, k in zip(zip(*(clean[n] for n in names)), columns["black"])]
    shown = {"white": columns["white"], "red": columns["red"], "green": columns["green"], "blue": columns["blue"],
             "yellow": add("red", "green"), "cyan": add("green", "blue"),
             "grey": [0.5 * w + k for w, k in zip(clean["white"], columns["black"])], "black": columns["black"]}
    noise = random.Random(seed)
    seconds = 0
    for repeat in range(1, 6):
        for patch in ("white", "red", "green", "blue", "yellow", "cyan", "grey", "white", "black"):
            flicker = 1.0 + noise.gauss(0.0, 3e-3)
            for instrument in ("reference", "meter"):
                seconds += 8
                ideal = read(nm, shown[patch], row_at) if instrument == "reference" else read(nm, shown[patch], meter_row, SCALE)
                yield patch, instrument, repeat, noisy(ideal, flicker, noise, patch == "black"), seconds


def main() -> None:
    folder = pathlib.Path(sys.argv[1])
    lines = ["# Invented demo data. The Lantern Room, grading monitor: spectroradiometer and filter meter, side by side.",
             "patch,instrument,repeat,X,Y,Z,time_s,window_pct,mode"]
    lines += [f"{p},{i},{n},{v[0]:.5f},{v[1]:.5f},{v[2]:.5f},{t},10,grading"
              for p, i, n, v, t in session(folder / "grading-monitor.csv", 21)]
    (folder / "grading-monitor-readings.csv").write_text("\n".join(lines) + "\n")
    lines = ["# INVENTED DEMO DATA, Lantern Room, client's set", "patch;instrument;repeat;x;y;Y [cd/m²];time_s;window_pct;mode"]
    for p, i, n, v, t in session(folder / "client-set.csv", 22):
        if p != "black":  # x, y of a black that is noise mean nothing
            total = sum(v)
            lines.append(f"{p};{i};{n};{v[0] / total:.5f};{v[1] / total:.5f};{v[1]:.4f};{t};10;cinema".replace(".", ","))
    (folder / "client-set-readings.csv").write_bytes(("\r\n".join(lines) + "\r\n").encode("latin-1"))
    for name in ("grading-monitor-readings.csv", "client-set-readings.csv"):
        print(f"{name}: {(folder / name).stat().st_size} bytes")


if __name__ == "__main__":
    main()
