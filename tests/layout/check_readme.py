#!/usr/bin/env python3
"""The first screen that README.md shows is what the command says: runs it on the demo's files and compares to the letter.

Usage: check_readme.py COMMAND PROJECT [--write]     (--write puts the command's words into README.md instead)
"""
import pathlib
import subprocess
import sys

BEGIN, END = "<!-- demo -->\n", "<!-- /demo -->"
FILES = ["grading-monitor.csv", "client-set.csv", "desk-display.csv", "foyer-display.csv"]


def main() -> int:
    command, project = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    said = subprocess.run([command, "white", *FILES, "--reference", "crt@0.3127,0.3290"],
                          cwd=project / "data" / "demo", check=True, capture_output=True, text=True).stdout
    wanted = "    $ samelight white " + " ".join(FILES) + " \\\n          --reference crt@0.3127,0.3290\n\n"
    wanted += "".join(("    " + line).rstrip() + "\n" for line in said.splitlines()) + "\n"
    readme = project / "README.md"
    before, _, rest = readme.read_text().partition(BEGIN)
    shown, _, after = rest.partition(END)
    if "--write" in sys.argv:
        readme.write_text(before + BEGIN + "\n" + wanted + END + after)
        return 0
    if shown != "\n" + wanted:
        print(f"README.md: the demo's screen isn't what the command says now; wanted:\n{wanted}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
