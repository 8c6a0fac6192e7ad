#!/usr/bin/env python3
"""Makes the readings of the demo's visit for those who live with the set. Usage: make_household.py SAMELIGHT FOLDER

The white is that of two viewers (`samelight white --viewer`), and every reading is what the filter meter of make_readings.py says, before its correction: the light
of the invented sets of make_proof.py, make_controls.py and make_ramps.py, about that white, through the inverse of the correction that `samelight meter fit` makes. The
second greys are read with the steps dialled in that `samelight adjust` says of the first. Written into FOLDER: proof-before.csv, greys.csv, controls.csv, greys-2.csv,
smooth-proof.csv and proof.csv. Nothing of it is a real set's.
"""
import json
import pathlib
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "proof"))
import make_controls  # noqa: E402
import make_proof  # noqa: E402
import make_ramps  # noqa: E402

VIEWERS = ("--reference", "crt@0.3127,0.3290", "--viewer", "45:4", "--viewer", "62:10")


def asked(command, *words):
    return subprocess.run([command, *words], check=True, capture_output=True, text=True).stdout


def as_the_meter_reads(text, correction):
    """Readings of X, Y, Z or x, y, Y through the inverse of the correction."""
    columns, lines = [], []
    for line in text.splitlines():
        cells = line.split(",")
        if line.startswith("#") or not columns:
            columns = columns if line.startswith("#") else cells
            lines.append(line)
            continue
        names = ("X", "Y", "Z") if "X" in columns else ("x", "y", "Y")
        at = [columns.index(name) for name in names]
        values = [float(cells[i]) for i in at]
        xyz = values if "X" in columns else make_controls.xyz(*values)
        read = make_proof.solve(correction, xyz)
        total = sum(read)
        shown = read if "X" in columns else [read[0] / total, read[1] / total, read[1]]
        for i, value, digits in zip(at, shown, (4, 4, 4) if "X" in columns else (4, 4, None)):
            cells[i] = f"{value:.5g}" if digits is None else f"{value:.{digits}f}"
        lines.append(",".join(cells))
    return "\n".join(lines) + "\n"


def main(command, folder):
    folder, demo = pathlib.Path(folder), HERE.parent
    with tempfile.TemporaryDirectory() as scratch:
        white, kept = f"{scratch}/white.json", f"{scratch}/correction.json"
        answer = asked(command, "white", str(demo / "client-set.csv"), *VIEWERS, "--json")
        pathlib.Path(white).write_text(answer)
        asked(command, "meter", "fit", str(demo / "client-set-readings.csv"), "--panel", str(demo / "client-set.csv"), "--write", kept)
        correction = json.loads(pathlib.Path(kept).read_text())["reference_from_meter"]
        chosen = json.loads(answer)["panels"][0]["advice"]["white"]
        make_proof.SET = (chosen["x"] + 0.0002, chosen["y"] + 0.0004)
        make_proof.main(command, scratch)
        make_ramps.XYZ_FROM_RGB = make_proof.matrix((chosen["x"], chosen["y"]))

        def write(name, text):
            (folder / name).write_text(as_the_meter_reads(text, correction))

        write("proof-before.csv", pathlib.Path(scratch, "client-set-proof-before.csv").read_text())
        write("proof.csv", pathlib.Path(scratch, "client-set-proof.csv").read_text())
        write("smooth-proof.csv", make_ramps.proof())
        write("controls.csv", "\n".join(make_controls.controls(make_controls.Noise(2))))
        write("greys.csv", "\n".join(make_controls.greys({}, make_controls.Noise(1))))
        steps = json.loads(asked(command, "adjust", str(folder / "greys.csv"), "--controls", str(folder / "controls.csv"),
                                 "--white", white, "--curve", "power:2.4", "--correction", kept, "--json"))["steps"]
        moved = {step["control"]: step["steps"] for step in steps if step["kind"] != "point"}
        write("greys-2.csv", "\n".join(make_controls.greys(moved, make_controls.Noise(3))))


if __name__ == "__main__":
    main(*sys.argv[1:])
