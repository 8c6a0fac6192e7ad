#!/usr/bin/env python3
"""Makes two visits' readings of the demo's client's set. Everything in them is invented: no display and no meter was measured.

The client's set of make_demo.py, in a mode that makes white of red, green and blue alone, read by the filter meter of make_readings.py
after its white was set, and a year later. In that year red keeps 97 %, green 98.5 % and blue 90 % of its light; the meter's gain falls by 1 %. White, red, green and blue three times, black three
times, seven greys once; noise from a fixed seed: .0002 in x and y, 0.3 % in Y, setting up again .0002 and 1 %.
And readings of a white that warms up: an approach with a time constant of 12 minutes, each minute from the 10th to the 26th.

Usage: make_visits.py FOLDER     (where these go; the demo's files stand in the folder above)
"""
import math
import pathlib
import random
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))
sys.dont_write_bytecode = True
import make_readings as demo  # noqa: E402

KEPT = {"then": (1.0, 1.0, 1.0), "now": (0.97, 0.985, 0.90)}
GAIN = {"then": 1.0, "now": 0.99}
GREYS = (5, 10, 20, 40, 60, 80)


def lights(kept):
    """Spectra of the patches, the emitters having kept so much."""
    nm, columns = demo.spectra(HERE.parent / "client-set.csv")
    black = columns["black"]
    clean = [[k * (v - b) for v, b in zip(columns[c], black)] for k, c in zip(kept, ("red", "green", "blue"))]
    shown = {name: [sum(part) + b for part, b in zip(zip(*[[a * v for v in light] for a, light in zip(amounts, clean)]), black)]
             for name, amounts in (("red", (1, 0, 0)), ("green", (0, 1, 0)), ("blue", (0, 0, 1)), ("white", (1, 1, 1)), ("black", (0, 0, 0)))}
    for level in GREYS:
        amount = (level / 100) ** 2.4
        shown[f"grey-{level}"] = [amount * (w - b) + b for w, b in zip(shown["white"], black)]
    return nm, shown


def codes(patch):
    if patch.startswith("grey-"):
        return (round(int(patch[5:]) * 10.23),) * 3
    lit = {"red": (1, 0, 0), "green": (0, 1, 0), "blue": (0, 0, 1), "white": (1, 1, 1), "black": (0, 0, 0)}[patch]
    return tuple(1023 * v for v in lit)


def visit(which, seed):
    nm, shown = lights(KEPT[which])
    noise = random.Random(seed)
    aim = GAIN[which] * (1.0 + noise.gauss(0.0, 0.01))
    again = {patch: (noise.gauss(0.0, 2e-4), noise.gauss(0.0, 2e-4)) for patch in shown}
    order = [(p, n) for n in (1, 2, 3) for p in ("white", "red", "green", "blue")] + [("black", n) for n in (1, 2, 3)]
    order += [(f"grey-{level}", 1) for level in GREYS]
    for patch, repeat in order:
        xyz = [aim * v for v in demo.read(nm, shown[patch], demo.meter_row, demo.SCALE)]
        if patch == "black":
            xyz = [v + noise.gauss(0.0, 2e-5) for v in xyz]
        else:
            total = sum(xyz)
            x = xyz[0] / total + again[patch][0] + noise.gauss(0.0, 2e-4)
            y = xyz[1] / total + again[patch][1] + noise.gauss(0.0, 2e-4)
            luminance = xyz[1] * (1.0 + noise.gauss(0.0, 3e-3))
            xyz = [x / y * luminance, luminance, (1 - x - y) / y * luminance]
        r, g, b = codes(patch)
        yield f"{patch},cinema,{repeat},{r},{g},{b},10,full,10,{xyz[0]:.5f},{xyz[1]:.5f},{xyz[2]:.5f}"


def warming(seed):
    noise = random.Random(seed)
    for minute in range(10, 27):
        away = math.exp(-minute / 12)
        x = 0.3127 + 0.006 * away + noise.gauss(0.0, 5e-5)
        y = 0.3290 + 0.004 * away + noise.gauss(0.0, 5e-5)
        luminance = 120 * (1 - 0.10 * away) * (1 + noise.gauss(0.0, 5e-4))
        yield f"white,{60 * minute},{x / y * luminance:.4f},{luminance:.4f},{(1 - x - y) / y * luminance:.4f}"


def main() -> None:
    folder = pathlib.Path(sys.argv[1])
    heading = "patch,mode,repeat,r,g,b,bits,range,window_pct,X,Y,Z"
    for name, which, seed in (("client-set-then.csv", "then", 31), ("client-set-now-year.csv", "now", 32)):
        first = "# Invented demo data. The Lantern Room, client's set by its meter" + (", a year later." if which == "now" else ", its white just set.")
        (folder / name).write_text("\n".join([first, heading, *visit(which, seed)]) + "\n")
    lines = ["# Invented demo data. The Lantern Room, client's set: white as it warms up.", "patch,time_s,X,Y,Z", *warming(33)]
    (folder / "client-set-warming-up.csv").write_text("\n".join(lines) + "\n")
    for name in ("client-set-then.csv", "client-set-now-year.csv", "client-set-warming-up.csv"):
        print(f"{name}: {(folder / name).stat().st_size} bytes")


if __name__ == "__main__":
    main()
