#!/usr/bin/env python3
"""The table of the largest errors seen, a section of src/docs/accuracy.md: what the tests of tests/accuracy left in their ledger, beside the bounds
that the headers state.

Usage: largest_errors.py ROOT --program test_accuracy [--draws N]     Says whether the page's ledger lists what the tests record now
       largest_errors.py ROOT --program test_accuracy --write         Draws a million of each and writes the ledger

The ledger is src/docs/making/largest_errors.json; tools/accuracy writes it and the page. Errors differ from machine to machine, so they are
compared with the bounds alone, never with each other.
"""
import argparse
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

FEWEST = 60
# What makes a figure the same one. The bound is looked for in the header.
KEYS = ("operation", "part", "type", "range", "bound", "unit", "header", "reference")


def ledger_path(root):
    return root / "src" / "docs" / "making" / "largest_errors.json"


def named(figure):
    part = f", {figure['part']}" if figure["part"] else ""
    return f"{figure['operation']}{part}, {figure['type']}, {figure['range']}"


def figure_faults(root, figures):
    """What is wrong with figures themselves: a bound that is exceeded, or isn't the header's."""
    faults = []
    for figure in figures:
        header = root / "include" / "samelight" / figure["header"]
        text = header.read_text(encoding="utf-8") if header.exists() else ""
        name = figure["operation"].removesuffix("()").split("::")[-1]
        if not re.search(rf"\b{name}\s*\(", text):
            faults.append(f"{named(figure)}: {figure['header']} has no {name}()")
        elif not re.search(rf"(?<![\d.e-]){re.escape(figure['bound'])}(?!\d|\.\d|e)", text):
            faults.append(f"{named(figure)}: {figure['header']} states no {figure['bound']}")
        if not float(figure["largest"]) <= float(figure["bound"]):
            faults.append(f"{named(figure)}: {figure['largest']} seen, beyond its bound, {figure['bound']}")
    seen = [tuple(figure[key] for key in KEYS) for figure in figures]
    faults += [f"listed twice: {' | '.join(one)}" for one in sorted({one for one in seen if seen.count(one) > 1})]
    if len(figures) < FEWEST:
        faults.append(f"{len(figures)} figures of largest errors; wanted {FEWEST} at least")
    return faults


def section(root):
    """(lines of the page, what is at fault)."""
    path = ledger_path(root)
    if not path.exists():
        return [], [f"{path.relative_to(root)} is missing: run tools/accuracy"]
    ledger = json.loads(path.read_text(encoding="utf-8"))
    figures = sorted(ledger["figures"], key=lambda f: (f["header"], f["operation"], f["part"], f["range"], f["type"]))
    lines = [
        "",
        "## Largest errors seen",
        "",
        f"Of each batch form, {ledger['draws']:,} random inputs of the range beside a reference of more digits, by {ledger['compiled_for']} "
        "(`tools/accuracy` makes the table again).",
        "At each build a test draws fewer, and fails where a bound is exceeded or where this table lists other figures than the tests record. An epsilon is "
        "2.2e-16 of a double,",
        "1.2e-7 of a float. Bounds and errors are of the unit beside them. Batches are compared with the exact result of the same float or double input, "
        "which is more than the bounds",
        "of colour say: these are beside the functions of one number.",
        "",
        "| operation | numbers | range | bound | largest seen | of | reference |",
        "|---|---|---|---|---|---|---|",
    ]
    for figure in figures:
        part = f", {figure['part']}" if figure["part"] else ""
        lines.append(f"| `{figure['operation']}`{part} | {figure['type']} | {figure['range'].replace('|', chr(92) + '|')} | {figure['bound']} "
                     f"| {figure['largest']:.2g} | {figure['unit'].replace('|', chr(92) + '|')} | {figure['reference']} |")
    return lines, figure_faults(root, figures)


def recorded(program, draws):
    """The ledger that the tests leave, and the end of what they printed where they failed."""
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / "ledger.json"
        done = subprocess.run([program, "--gtest_brief=1"], capture_output=True, text=True, check=False,
                              env={**os.environ, "SAMELIGHT_ACCURACY_OUT": str(out), "SAMELIGHT_ACCURACY_DRAWS": str(draws)})
        if not out.exists():
            return None, done.stdout[-3000:] + done.stderr[-1000:]
        return json.loads(out.read_text(encoding="utf-8")), done.stdout[-3000:] if done.returncode else ""


def main():
    wanted = argparse.ArgumentParser(usage=__doc__)
    wanted.add_argument("root", type=lambda text: pathlib.Path(text).resolve())
    wanted.add_argument("--program", required=True)
    wanted.add_argument("--draws", type=int)
    wanted.add_argument("--write", action="store_true")
    given = wanted.parse_args()
    ledger, failed = recorded(given.program, given.draws or (1_000_000 if given.write else 500))
    if failed or ledger is None:
        print(failed or f"{given.program} left no ledger")
        return 1
    if not ledger["figures"]:
        print("skipped: no number type here with more digits than double")
        return 77
    faults = figure_faults(given.root, ledger["figures"])
    if given.write:
        figures = ",\n".join("  " + json.dumps(figure) for figure in ledger["figures"])
        ledger_path(given.root).write_text(
            f'{{"draws": {ledger["draws"]}, "compiled_for": {json.dumps(ledger["compiled_for"])},\n "figures": [\n{figures}\n ]}}\n', encoding="utf-8")
    else:
        page = json.loads(ledger_path(given.root).read_text(encoding="utf-8"))["figures"]
        now = {tuple(figure[key] for key in KEYS) for figure in ledger["figures"]}
        then = {tuple(figure[key] for key in KEYS) for figure in page}
        faults += [f"recorded by a test, not in the page's ledger (run tools/accuracy): {' | '.join(one)}" for one in sorted(now - then)]
        faults += [f"in the page's ledger, recorded by no test (run tools/accuracy): {' | '.join(one)}" for one in sorted(then - now)]
    for fault in faults:
        print(fault)
    print(f"{len(ledger['figures'])} figures of {ledger['draws']} draws, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
