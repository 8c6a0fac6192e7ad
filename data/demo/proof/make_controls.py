#!/usr/bin/env python3
"""Makes the demo's greys and control readings. Usage: make_controls.py FOLDER

All of it is invented: a display that never was, whose white is too blue, whose greys turn red in the dark, and whose controls couple. Written into
FOLDER: client-set-greys.csv, client-set-controls.csv, and client-set-greys-2.csv, the same greys with SET dialled in. The same files
on every machine: the noise comes from a generator of our own.
"""
import pathlib
import sys

# x, y of the primaries, and each one's share of white's luminance (cd/m2).
PRIMARIES = [((0.6795, 0.3190), 30.4), ((0.2690, 0.6890), 97.5), ((0.1520, 0.0590), 11.6)]
BLACK = (0.2900, 0.3000, 0.012)
EXPONENT = 2.36
# Of each channel's signal: an offset that fades out to the top, and a bend of the middle.
OFFSETS = [0.006, 0.000, -0.002]
BENDS = [0.0035, -0.0010, 0.0]
# What one step adds to the signals of red, green, blue: at the top and at the bottom.
CONTROLS = {
    "red gain": ((0.0040, 0.0002, 0.0001), (0.0002, 0.0, 0.0)),
    "green gain": ((0.0001, 0.0038, 0.0003), (0.0, 0.0002, 0.0)),
    "blue gain": ((0.0000, 0.0003, 0.0045), (0.0, 0.0, 0.0002)),
    "red offset": ((0.0004, 0.0, 0.0), (0.0015, 0.0001, 0.0)),
    "green offset": ((0.0, 0.0004, 0.0), (0.0, 0.0014, 0.0001)),
    "blue offset": ((0.0, 0.0, 0.0005), (0.0, 0.0001, 0.0017)),
}
LEAST, MOST = -30, 20
GREYS = [0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]


class Noise:
    """Sums of twelve numbers of a linear congruential generator: near enough to a normal distribution for a demo."""

    def __init__(self, seed):
        self.state = seed

    def unit(self):
        self.state = (6364136223846793005 * self.state + 1442695040888963407) % 2**64
        return (self.state >> 11) / 2**53

    def normal(self):
        return sum(self.unit() for _ in range(12)) - 6.0


def xyz(x, y, luminance):
    return [x / y * luminance, luminance, (1 - x - y) / y * luminance]


def light(level, moved):
    total = xyz(*BLACK)
    for k, ((x, y), luminance) in enumerate(PRIMARIES):
        signal = level / 100
        e = signal + OFFSETS[k] * (1 - signal) + BENDS[k] * 4 * signal * (1 - signal)
        for control, steps in moved.items():
            top, bottom = CONTROLS[control]
            e += steps * (top[k] * signal + bottom[k] * (1 - signal))
        for i, value in enumerate(xyz(x, y, luminance)):
            total[i] += value * max(0.0, e) ** EXPONENT
    return total


def read(level, moved, noise):
    common = 0.001 * noise.normal()
    values = [v * (1 + common + 0.0006 * noise.normal()) + 0.0002 * noise.normal() for v in light(level, moved)]
    total = sum(values)
    return f"{values[0] / total:.4f},{values[1] / total:.4f},{values[1]:.5g}"


def greys(moved, noise):
    lines = ["# Invented for the demo: no display's readings.", "level_pct,repeat,x,y,Y,window_pct"]
    for level in GREYS:
        for repeat in range(1, 3 if level < 100 else 4):
            lines.append(f"{level},{repeat}," + read(level, moved, noise) + ",10")
    return lines


def controls(noise):
    lines = ["# Invented for the demo: no display's readings.", "control,steps,level_pct,x,y,Y,least,most"]
    for level in (100, 30):
        lines += [f",0,{level}," + read(level, {}, noise) + ",," for _ in range(2)]
    for control in CONTROLS:
        for level in (100, 30):
            for steps in (-10, 10):
                lines.append(f"{control},{steps},{level}," + read(level, {control: steps}, noise) + f",{LEAST},{MOST}")
    return lines


# What samelight adjust says to set on the first pass about 0.3127, 0.3290.
SET = {"red gain": 3, "blue gain": -6, "red offset": -3, "green offset": 2, "blue offset": 3}


def main():
    folder = pathlib.Path(sys.argv[1])
    for name, lines in (("client-set-greys", greys({}, Noise(1))), ("client-set-controls", controls(Noise(2))),
                        ("client-set-greys-2", greys(SET, Noise(3)))):
        (folder / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
