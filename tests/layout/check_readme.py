#!/usr/bin/env python3
"""The screens that README.md shows are what the command says: runs each on the demo's files and compares to the letter.

Usage: check_readme.py COMMAND PROJECT [--write]     (--write puts the command's words into README.md instead)

A screen stands between <!-- screen --> and <!-- /screen -->: the line that is typed behind a $, which may go on behind a backslash, and below it what is said.
"""
import pathlib
import re
import shlex
import subprocess
import sys

SCREEN = re.compile(r"(<!-- screen -->\n)(.*?)(<!-- /screen -->)", re.S)
TYPED = re.compile(r"\n    \$ samelight ((?:[^\n]*\\\n)*[^\n]*)\n")


def said_now(shown, command, folder):
    """The screen as it must be, of the line that is typed in it."""
    typed = TYPED.search(shown)
    words = shlex.split(typed.group(1).replace("\\\n", " "))
    said = subprocess.run([command, *words], cwd=folder, check=True, capture_output=True, text=True).stdout
    return typed.group(0) + "\n" + "".join(("    " + line).rstrip() + "\n" for line in said.splitlines()) + "\n"


def main() -> int:
    command, project = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    folder = project / "data" / "demo"
    readme = project / "README.md"
    text = readme.read_text()
    if "--write" in sys.argv:
        readme.write_text(SCREEN.sub(lambda m: m.group(1) + said_now(m.group(2), command, folder) + m.group(3), text))
        return 0
    screens = SCREEN.findall(text)
    if not screens:
        print("README.md: no screen in it, so nothing was checked")
        return 1
    faults = 0
    for _, shown, _ in screens:
        wanted = said_now(shown, command, folder)
        if shown != wanted:
            print(f"README.md: a screen isn't what the command says now; wanted:\n{wanted}")
            faults += 1
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
