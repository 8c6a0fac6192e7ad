#!/usr/bin/env python3
"""Makes the demo's ramps and proof for `samelight gradient`. Usage: make_ramps.py FOLDER

All of it is invented: a set with BT.709's primaries, white .3127 .3290 at 120 cd/m2, a power of 2.4, whose reds are a little too pale and whose
white is too strong in red and blue, and a control that makes one step of the reds jump. Noise of an instrument is drawn from fixed seeds, so that the files come out alike every time.
"""
import pathlib
import random
import sys

WHITE, POWER, NOISE = 120.0, 2.4, 0.0005
XYZ_FROM_RGB = ((0.4123908, 0.3575843, 0.1804808), (0.2126390, 0.7151687, 0.0721923), (0.0193308, 0.1191948, 0.9505322))


def light(rgb):
    linear = [WHITE * max(0.0, v) ** POWER for v in rgb]
    return [sum(m * v for m, v in zip(row, linear)) for row in XYZ_FROM_RGB]


def paled(rgb):
    """What is wrong with the set: a share of its most saturated reds is lost to grey; its red and its blue are too strong."""
    r, g, b = rgb
    pale = 0.08 * max(0.0, r - max(g, b))
    return 1.04 * r, g + pale, 1.06 * (b + pale)


def row(name, code, xyz, draw):
    x, y, z = (v * (1.0 + NOISE * draw.gauss(0.0, 1.0)) for v in xyz)
    return f"{name},{code[0]},{code[1]},{code[2]},10,full,{x:.6g},{y:.6g},{z:.6g}\n"


def reds(adjusted):
    """Black to red in 64 steps, five readings each; with the control at its end one of them jumps."""
    draw = random.Random(11 if adjusted else 7)
    text = "# Invented: a ramp of reds, " + ("with the control at its end" if adjusted else "without the control") + ".\n"
    text += "patch,r,g,b,bits,range,X,Y,Z\n"
    for k in range(1, 65):
        code = (round(1023 * k / 64), 0, 0)
        signal = [c / 1023 for c in code]
        if adjusted and signal[0] > 0.7:
            signal = [0.02 + signal[0], signal[1], signal[2]]
        for _ in range(5):
            text += row(f"red {k}", code, light(paled(signal)), draw)
    return text


def proof():
    """Patches read without the adjustment."""
    draw = random.Random(3)
    text = "# Invented: patches of a proof, read without the adjustment.\npatch,r,g,b,bits,range,X,Y,Z\n"
    lit = {"red": (1, 0, 0), "yellow": (1, 1, 0), "green": (0, 1, 0), "cyan": (0, 1, 1), "blue": (0, 0, 1), "magenta": (1, 0, 1)}
    for percent in (0, 2, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100):
        code = (round(10.23 * percent),) * 3
        text += row(f"grey-{percent}", code, light(paled([c / 1023 for c in code])), draw)
    for name, on in lit.items():
        for saturation in (25, 50, 75, 100):
            for level in (50, 100):
                most, least = level / 100, level / 100 * (1 - saturation / 100)
                code = tuple(round(1023 * (most if c else least)) for c in on)
                text += row(f"{name}-{saturation}-{level}", code, light(paled([c / 1023 for c in code])), draw)
    return text


def main(folder):
    folder = pathlib.Path(folder)
    (folder / "client-set-reds-before.csv").write_text(reds(False))
    (folder / "client-set-reds.csv").write_text(reds(True))
    (folder / "client-set-smooth-proof.csv").write_text(proof())


if __name__ == "__main__":
    main(sys.argv[1])
