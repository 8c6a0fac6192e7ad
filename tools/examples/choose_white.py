"""Chooses the whites of two displays from Python, says how people differ about them, and keeps the report with its charts.

Usage: choose_white.py FOLDER [PAGE]     (data/demo: the files of the demonstration; PAGE: where the report goes)
"""
import pathlib
import sys

import samelight as sl

# %% Two displays beside a tube monitor: what to dial in, how sure, and whether to move at all.
folder = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else "data/demo")
displays = [folder / "grading-monitor.csv", folder / "client-set.csv"]
answer = sl.white(displays, "crt@0.3127,0.3290")
for display, part in zip(displays, answer.parts):
    within = "" if part.half_widths is None else " within {:.4f}, {:.4f}".format(*part.half_widths)
    print(f"{display.stem:16} x {part.x:.4f}, y {part.y:.4f}{within}: {part.verdict}")

# %% Where 256 people of 20 to 70 years would each want the white of the first.
people = sl.Population(256)
spread = people.spread(displays[0], "crt@0.3127,0.3290")
print(f"{spread.people} people: mean x {spread.mean[0]:.4f}, y {spread.mean[1]:.4f}, largest semi-axis {max(spread.semi_axes):.4f}")

# %% In a notebook `answer` alone shows the report, charts and all; here it is kept as a page.
if len(sys.argv) > 2:
    pathlib.Path(sys.argv[2]).write_text(answer.html(), encoding="utf-8")
