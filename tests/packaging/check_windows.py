#!/usr/bin/env python3
"""Checks the command for Windows under wine. Usage: check_windows.py NATIVE WINDOWS ROOT

NATIVE is the command of this system, WINDOWS samelight.exe. Both are given the examples of the manual pages on the demo's files; answers for programs must
agree in every word and in every number to 1e-12 (of the number, or of 1), other output and files that are written likewise. Colour differences DE00 of neutral patches
may differ by 1e-9: their target has chroma 1e-14 of rounding, the hue difference is made with the root of it, 1e-7, and enters with the
rotation term (CIE 142-2001) to the first power. Which keys do is said. Then names with
spaces and umlauts, CR LF, backslashes, standard input, files written over others, and a console.
"""
import json
import os
import pathlib
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time

NATIVE, WINDOWS, ROOT = (pathlib.Path(word).resolve() for word in sys.argv[1:4])
sys.path.insert(0, str(ROOT / "tools" / "packaging"))
import roff  # noqa: E402

WINE = shutil.which("wine64") or "/usr/lib/wine/wine64"
BOUND = 1e-12
BOUND_OF_NEUTRAL_DE00 = 1e-9
# No space in front of a digit is one of a number: x,y and 5,10 are read as two.
NUMBER = re.compile(rb"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?")
faults, counts = [], {"to the byte": 0, "to digits": 0}
worst = {"": 0.0, "de00": 0.0}
beyond = set()


def fault(words):
    faults.append(words)
    print(f"FAULT {words}", flush=True)


def environment(work):
    return {**os.environ, "WINEPREFIX": str(work / "wine"), "WINEDEBUG": "-all", "LC_ALL": "C.UTF-8", "WINEDLLOVERRIDES": "mscoree,mshtml=", "DISPLAY": ""}


class Sides:
    """Two folders with the same files, one a command."""

    def __init__(self, work):
        self.environment = environment(work)
        self.folders = {"native": work / "native", "windows": work / "windows"}
        for folder in self.folders.values():
            shutil.copytree(ROOT / "data" / "demo", folder)

    def run(self, side, words, data=b""):
        program = [str(NATIVE)] if side == "native" else [WINE, str(WINDOWS)]
        return subprocess.run([*program, *words], cwd=self.folders[side], env=self.environment, input=data, capture_output=True, timeout=600)

    def both(self, words, data=b""):
        return self.run("native", words, data), self.run("windows", words, data)

    def files(self, side):
        folder = self.folders[side]
        return {file.relative_to(folder).as_posix(): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def same_json(what, one, other, key):
    """Values of the same shape and words; numbers within the bound of their kind."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        for name in one:
            same_json(what, one[name], other[name], f"{key}.{name}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for a, b in zip(one, other):
            same_json(what, a, b, f"{key}[]")
    elif isinstance(one, float) and isinstance(other, (int, float)):
        kind = "de00" if "de00" in key else ""
        off = abs(one - other) / max(1.0, abs(one))
        worst[kind] = max(worst[kind], off)
        if off > BOUND and kind:
            beyond.add(key)
        if off > (BOUND_OF_NEUTRAL_DE00 if kind else BOUND):
            fault(f"{what}: {key} is {one} here, {other} on Windows")
    elif one != other:
        fault(f"{what}: {key} is {one!r} here, {other!r} on Windows")


def same(what, one, other):
    """Bytes, or words and numbers that agree within the bound."""
    if one == other:
        counts["to the byte"] += 1
        return
    counts["to digits"] += 1
    try:
        return same_json(what, json.loads(one), json.loads(other), "")
    except ValueError:
        pass
    if NUMBER.sub(b"#", one) != NUMBER.sub(b"#", other):
        fault(f"{what}: the words differ")
        for a, b in zip(one.split(b"\n"), other.split(b"\n")):
            if NUMBER.sub(b"#", a) != NUMBER.sub(b"#", b):
                print(f"    {a.decode(errors='replace')}\n    {b.decode(errors='replace')}")
                break
        return
    off = max(abs(float(a) - float(b)) / max(1.0, abs(float(a))) for a, b in zip(NUMBER.findall(one), NUMBER.findall(other)))
    worst[""] = max(worst[""], off)
    if off > BOUND:
        fault(f"{what}: numbers differ by {off:.2g}")


def compare(sides, words, data=b"", wanted=0):
    native, windows = sides.both(words, data)
    line = " ".join(words)
    if (native.returncode, windows.returncode) != (wanted, wanted):
        fault(f"{line}: ended with {native.returncode} here, {windows.returncode} on Windows; wanted {wanted}: {windows.stderr.decode(errors='replace')}")
    same(line, native.stdout, windows.stdout)
    if wanted == 0:
        same(f"{line} (standard error)", native.stderr, windows.stderr)
    return windows


def check_examples(sides):
    for file in sorted((ROOT / "src" / "docs" / "man").glob("*.md")):
        for example in roff.examples(file.read_text(encoding="utf-8")):
            for line in example.replace("\\\n", " ").split("\n"):
                words = subprocess.run(["sh", "-c", f"printf '%s\\n' {line}"], capture_output=True, text=True, check=True).stdout.split("\n")[1:-1]
                # What an example does where the answer is no.
                wanted = 1 if " || " in line else 0
                compare(sides, words, wanted=wanted)
                if "--csv" not in words:
                    answer = compare(sides, [*words, "--json"], wanted=wanted)
                    try:
                        json.loads(answer.stdout)
                    except ValueError:
                        fault(f"{line} --json: no JSON")
    one, other = sides.files("native"), sides.files("windows")
    if one.keys() != other.keys():
        fault(f"files that one side alone wrote: {sorted(one.keys() ^ other.keys())}")
    for name in sorted(one.keys() & other.keys()):
        same(name, one[name], other[name])


def check_names(sides):
    for side, folder in sides.folders.items():
        (folder / "Küche und Büro").mkdir()
        text = (folder / "client-set.csv").read_bytes()
        (folder / "Küche und Büro" / "Fernseher, größer.csv").write_bytes(text)
        lines = text.replace(b"\r\n", b"\n")
        (folder / "lf.csv").write_bytes(lines)
        (folder / "crlf.csv").write_bytes(lines.replace(b"\n", b"\r\n"))
        (folder / "list.txt").write_bytes("client-set.csv\r\nKüche und Büro/Fernseher, größer.csv\r\n".encode())
    compare(sides, ["white", "Küche und Büro/Fernseher, größer.csv", "--json"])
    for name in ("lf.csv", "crlf.csv"):
        compare(sides, ["spectrum", name, "--json"])
        compare(sides, ["white", name, "--json"])
    compare(sides, ["white", "--panels-from", "list.txt", "--lines-of-json"])
    compare(sides, ["white", "--panels-from", "-", "--lines-of-json"], "client-set.csv\r\nKüche und Büro/Fernseher, größer.csv\r\n".encode())
    compare(sides, ["spectrum", "-", "--json"], (sides.folders["native"] / "crlf.csv").read_bytes())
    compare(sides, ["white", "Küche.csv", "--json"], wanted=1)
    # What a Windows user types.
    plain = sides.run("windows", ["spectrum", "client-set.csv", "--json"]).stdout
    typed = sides.run("windows", ["spectrum", ".\\client-set.csv", "--json"]).stdout
    if typed.replace(b".\\\\client-set.csv", b"client-set.csv") != plain:
        fault(f"a name with a backslash: another answer than without: {typed[:500]}")


def check_writing(sides):
    folder = sides.folders["windows"]
    page = "Küche und Büro/Bericht für Müller.html"
    line = ["spectrum", "client-set.csv", "--report", page, "--title", "Gerät im Wohnzimmer"]
    for _ in range(2):  # the second over the first
        compare(sides, line)
        same(page, (sides.folders["native"] / page).read_bytes(), (folder / page).read_bytes())
    (folder / page).chmod(0o444)
    refused = sides.run("windows", line)
    if refused.returncode != 1 or b"a file that nobody may write" not in refused.stderr or "Bericht für Müller".encode() not in refused.stderr:
        fault(f"a read-only file: {refused}")
    for wanted, name in (("a folder", "proof"), ("no such folder", "nowhere/page.html")):
        refused = sides.run("windows", ["spectrum", "client-set.csv", "--report", name])
        if refused.returncode != 1 or wanted.encode() not in refused.stderr:
            fault(f"--report {name}: {refused}")
    nothing = sides.run("windows", ["spectrum", "client-set.csv", "--report", "NUL"])
    if nothing.returncode != 0 or (folder / "NUL").exists():
        fault(f"--report NUL: {nothing}")
    same_file = sides.run("windows", ["spectrum", "client-set.csv", "--report", ".\\CLIENT-SET.csv"])
    if same_file.returncode != 1 or b"a file that was read" not in same_file.stderr:
        fault(f"a file that was read, by another name: {same_file}")
    left = [file.name for file in folder.rglob(".samelight*")]
    if left:
        fault(f"left behind: {left}")


def check_console(sides):
    """A console that is this terminal, on which wine draws: what is read off it are whole letters."""
    master, terminal = pty.openpty()
    process = subprocess.Popen([WINE, str(WINDOWS), "spectrum", "Küche und Büro/Fernseher, größer.csv"], cwd=sides.folders["windows"],
                               env={**sides.environment, "TERM": "xterm", "NO_COLOR": "1"}, stdin=terminal, stdout=terminal, stderr=terminal)
    os.close(terminal)
    got, end = b"", time.monotonic() + 120
    while time.monotonic() < end and (process.poll() is None or select.select([master], [], [], 1)[0]):
        if select.select([master], [], [], 1)[0]:
            try:
                got += os.read(master, 65536)
            except OSError:
                break
    os.close(master)
    if process.wait(60) != 0 or "Fernseher, größer.csv" not in got.decode(errors="replace"):
        fault(f"console: wanted `Fernseher, größer.csv` in {got!r}")


def main():
    with tempfile.TemporaryDirectory() as name:
        work = pathlib.Path(name)
        sides = Sides(work)
        # So that not each run starts it anew. Told to end by its own prefix.
        (work / "wine").mkdir()
        wineserver = shutil.which("wineserver") or "/usr/lib/wine/wineserver64"
        subprocess.run([wineserver, "-p600"], env=sides.environment, check=False)
        try:
            # The first run starts what stays: it must not hold a pipe that is read to its end.
            subprocess.run([WINE, str(WINDOWS), "--version"], env=sides.environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                           stderr=subprocess.DEVNULL, check=False, timeout=600)
            version = sides.both(["--version"])
            if version[0].stdout != version[1].stdout:
                fault(f"--version: {version[0].stdout} here, {version[1].stdout} on Windows")
            check_examples(sides)
            check_names(sides)
            check_writing(sides)
            check_console(sides)
        finally:
            subprocess.run([wineserver, "-k"], env=sides.environment, check=False)
    print(f"{WINDOWS.stat().st_size} bytes; {counts['to the byte']} outputs and files the same to the byte, {counts['to digits']} but for digits: "
          f"{worst['']:.2g} at most, DE00 {worst['de00']:.2g}; {len(faults)} faults")
    if beyond:
        print(f"Beyond {BOUND}: {', '.join(sorted(beyond))}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
