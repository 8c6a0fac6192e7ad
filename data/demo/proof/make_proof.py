#!/usr/bin/env python3
"""Makes the readings of an invented set before and after work on it. Usage: make_proof.py SAMELIGHT FOLDER

Codes are those of `samelight targets`; lights are worked out here, from primaries and curve, and given faults and noise: before, the set's own white, a curve of
2.2, weak colours and a lifted black; after, what is left of them. Positions and repeats of white are read after the work. Nothing of it is a real set's.
"""
import csv
import io
import pathlib
import random
import subprocess
import sys

# The white that was chosen for it, before the work and after.
CHOSEN = (0.3091, 0.3199)
NATIVE, SET = (0.3009, 0.3114), (CHOSEN[0] + 0.0002, CHOSEN[1] + 0.0004)
PRIMARIES = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))
POSITIONS = (("top left", 0.93, 0.006), ("top", 0.96, 0.002), ("top right", 0.92, 0.001), ("left", 0.97, 0.003), ("right", 0.95, -0.002),
             ("bottom left", 0.91, 0.004), ("bottom", 0.96, 0.0), ("bottom right", 0.90, -0.005))


def solve(m, v):
    def det(a):
        return (a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) - a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0])
                + a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]))
    columns = []
    for k in range(3):
        c = [list(row) for row in m]
        for i in range(3):
            c[i][k] = v[i]
        columns.append(det(c) / det(m))
    return columns


def matrix(white):
    p = [[xy[0] for xy in PRIMARIES], [xy[1] for xy in PRIMARIES], [1 - xy[0] - xy[1] for xy in PRIMARIES]]
    s = solve(p, [white[0] / white[1], 1, (1 - white[0] - white[1]) / white[1]])
    return [[row[k] * s[k] for k in range(3)] for row in p]


def light(code, white, exponent, saturation, black, peak):
    v = [c / 255 for c in code]
    y = 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2]
    v = [min(1.0, max(0.0, y + saturation * (s - y))) for s in v]
    linear = [black + (1 - black) * s ** exponent for s in v]
    return [peak * sum(row[k] * linear[k] for k in range(3)) for row in matrix(white)]


def row(name, code, xyz, noise, position="", repeat=1):
    read = [value * (1 + 0.0015 * noise.gauss(0, 1)) + 0.001 * noise.gauss(0, 1) for value in xyz]
    return [name, *code, 8, "full", *(f"{value:.4f}" for value in read), 10, repeat, position]


def write(path, rows):
    with open(path, "w", newline="") as file:
        file.write("# invented readings, for a demonstration\n")
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["patch", "r", "g", "b", "bits", "range", "X", "Y", "Z", "window_pct", "repeat", "position"])
        writer.writerows(rows)


def main(command, folder):
    text = subprocess.run([command, "targets", "--write", "-"], check=True, capture_output=True, text=True).stdout
    begin = text.index("patch,group")
    patches = [(r["patch"], [int(r["r"]), int(r["g"]), int(r["b"])]) for r in csv.DictReader(io.StringIO(text[begin:])) if r.get("b")]
    noise = random.Random(7)
    before = [row(name, code, light(code, NATIVE, 2.2, 0.94, 0.0004, 131.0), noise, "centre") for name, code in patches]
    after = [row(name, code, light(code, SET, 2.38, 0.995, 0.0002, 119.6), noise, "centre") for name, code in patches]
    white = [255, 255, 255]
    after += [row("grey-100", white, light(white, SET, 2.38, 1, 0.0002, 119.6), noise, "centre", r) for r in (2, 3, 4)]
    for name, share, move in POSITIONS:
        xyz = light(white, (SET[0] + 0.5 * move, SET[1] + 0.5 * move), 2.38, 1, 0.0002, 119.6 * share)
        after.append(row("grey-100", white, xyz, noise, name))
    folder = pathlib.Path(folder)
    write(folder / "client-set-proof-before.csv", before)
    write(folder / "client-set-proof.csv", after)


if __name__ == "__main__":
    main(*sys.argv[1:])
