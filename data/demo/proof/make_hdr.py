#!/usr/bin/env python3
"""Makes the demo's readings in HDR. Usage: make_hdr.py FOLDER

All of it is invented: a display that never was, of 1,040 cd/m2 in small windows, with a limiter from 25 % on, a white emitter and PQ rolled off from
a programme of 4,000 cd/m2. Written into FOLDER: client-set-hdr.csv. The same file on every machine.
"""
import pathlib
import sys

from make_controls import Noise, xyz

PEAK, PROGRAMME = 1040.0, 4000.0
WINDOWS = {1: 1.0, 2: 1.0, 5: 1.0, 10: 1.0, 25: 0.78, 50: 0.46, 75: 0.31, 100: 0.24}
WHITE = (0.3134, 0.3283)
PRIMARIES = {"red": ((0.680, 0.318), 0.165), "green": ((0.268, 0.690), 0.52), "blue": ((0.150, 0.060), 0.058)}
BLACK = (0.30, 0.31, 0.0008)


def eotf(signal):
    p = signal ** (32 / 2523)
    return 10000 * (max(p - 0.8359375, 0) / (18.8515625 - 18.6875 * p)) ** (16384 / 2610)


def inverse(luminance):
    y = (luminance / 10000) ** (2610 / 16384)
    return ((0.8359375 + 18.8515625 * y) / (1 + 18.6875 * y)) ** (2523 / 32)


def grey(signal):
    top = inverse(PROGRAMME)
    most = inverse(PEAK) / top
    e, knee = min(1, signal / top), 1.5 * most - 0.5
    if e > knee:
        t = (e - knee) / (1 - knee)
        e = (2 * t**3 - 3 * t**2 + 1) * knee + (t**3 - 2 * t**2 + t) * (1 - knee) + (3 * t**2 - 2 * t**3) * most
    return eotf(e * top)


def row(noise, x, y, luminance):
    values = [v * (1 + 0.0015 * noise.normal()) + 0.0002 * abs(noise.normal()) for v in xyz(x, y, luminance)]
    total = sum(values)
    return f"{values[0] / total:.4f},{values[1] / total:.4f},{values[1]:.5g}"


def main():
    noise = Noise(11)
    lines = ["# Invented for the demo: no display's readings.", "patch,level_pct,window_pct,time_s,x,y,Y"]
    for window, share in WINDOWS.items():
        for i in range(3):
            fade = 1 - (0.012 * i if window >= 25 else 0.001 * i)
            x, y = WHITE[0] - 0.0006 * max(0, window - 10) / 90, WHITE[1] - 0.0010 * max(0, window - 10) / 90
            lines.append(f"white,,{window},{20 * i}," + row(noise, x, y, PEAK * share * fade))
        for name, ((x, y), part) in PRIMARIES.items():
            lines.append(f"{name},,{window},," + row(noise, x, y, PEAK * share * part))
    lines.append("black,,10,," + row(noise, *BLACK))
    for level in [5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95]:
        lines.append(f",{level},10,," + row(noise, *WHITE, grey(level / 100)))
    (pathlib.Path(sys.argv[1]) / "client-set-hdr.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
