#!/usr/bin/env python3
"""An answer's digits are not those of the addresses that its numbers happened to stand at: the command's JSON is the same to the byte
wherever its memory begins.

Usage: addresses.py COMMAND SHIFTED_MEMORY DATA

SHIFTED_MEMORY is addresses.cpp as a shared library, DATA the folder data/. Built for processors with registers of 32 or 64 bytes (preset
native) the command could fail; with 16 bytes, which every address of malloc's suits, it can't.
"""
import os
import subprocess
import sys

LINES = [
    "white {demo}/grading-monitor.csv {demo}/client-set.csv --reference crt@0.3127,0.3290",
    "white oled-white --reference crt@0.3127,0.3290 --budget",
    "white {demo}/client-set.csv --reference crt@0.3127,0.3290 --viewer 28 --viewer 64:4",
    "white --primaries red=0.675,0.324,27.2;green=0.157,0.770,57.0;blue=0.143,0.035,3.72;white=0.315,0.332,88.0",
    "metamerism {demo}/grading-monitor.csv {demo}/client-set.csv {demo}/desk-display.csv",
    "spectrum {demo}/client-set.csv",
    "meter fit {demo}/client-set-readings.csv --panel {demo}/client-set.csv",
    "meter choose {demo}/client-set.csv",
    "check {demo}/proof/client-set-proof.csv",
    "adjust {demo}/household/greys.csv --controls {demo}/household/controls.csv --white 0.3091,0.3199",
    "gradient --adjustment {demo}/proof/client-set-adjustment.csv",
    "hdr {demo}/proof/client-set-hdr.csv --white 0.3127,0.3290",
    "compare {demo}/proof/client-set-then.csv {demo}/proof/client-set-now-year.csv --months 12",
]


def answer(command, words, memory, shift):
    ran = subprocess.run([command, *words, "--json"], capture_output=True,
                         env=dict(os.environ, LD_PRELOAD=memory, SAMELIGHT_SHIFT=str(shift)), check=False)
    if ran.returncode != 0 or not ran.stdout.startswith(b"{"):
        sys.exit(f"addresses.py: {' '.join(words)}: ended with {ran.returncode}: {ran.stderr.decode(errors='replace')[:500]}")
    return ran.stdout


def main():
    command, memory, data = sys.argv[1:]
    faults = 0
    for line in LINES:
        words = [word.replace(";", " ").format(demo=os.path.join(data, "demo")) for word in line.split()]
        first = answer(command, words, memory, 0)
        for shift in (16, 32, 48):
            other = answer(command, words, memory, shift)
            if other != first:
                faults += 1
                at = next(i for i, pair in enumerate(zip(first, other)) if pair[0] != pair[1])
                print(f"samelight {line}: {shift} bytes further on: {first[at - 60:at + 20]} became {other[at - 60:at + 20]}")
    print(f"{len(LINES)} lines at 4 places, {faults} faults")
    return faults != 0


if __name__ == "__main__":
    sys.exit(main())
