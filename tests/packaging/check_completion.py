#!/usr/bin/env python3
"""Checks completion. Usage: check_completion.py COMMAND ROOT

Bash is given words and a cursor as its line editor gives them (COMP_WORDS, COMP_CWORD); zsh, where it is here, is typed to on a terminal. What must come is
written here by hand. Names that are offered for an option must be accepted there, and a name that isn't one refused.
"""
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

PROGRAM, ROOT = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
sys.path.insert(0, str(ROOT / "tools" / "packaging"))
from described import described  # noqa: E402
import roff  # noqa: E402

faults = []

# What is typed, as bash takes it apart, and what must be among its answers; what must not is behind a !.
BASH = [
    ("samelight|", "white check meter compare !--help"),
    ("samelight|wh", "white !check"),
    ("samelight|--", "--help --version !--json"),
    ("samelight|meter|", "fit model choose !white !readings.csv"),
    ("samelight|meter|fit|--me", "--method --meter-instrument !--mode"),
    ("samelight|meter|fit|--method|", "four-colour white-only !readings.csv"),
    ("samelight|meter|fit|readings.csv|--noise|e", "each-patch !auto"),
    ("samelight|meter|model|--method|", "primaries !four-colour"),
    ("samelight|white|oled", "oled-rgb oled-white !laser-rgb"),
    ("samelight|white|client", "client-set.csv !crt"),
    ("samelight|white|client-set.csv|--reference|./", "./client-set.csv"),
    ("samelight|white|--people|", "!client-set.csv !crt"),
    ("samelight|white|--type|", "crt oled-rgb !client-set.csv"),
    ("samelight|white|--observer|cie2015", "cie2015-2deg !cie1931-2deg"),
    ("samelight|white|--viewer|28|--spr", "--spread !--json"),
    ("samelight|white|--spread|=|", "matches literature"),
    ("samelight|white|red|=|client", "red=client-set.csv"),
    ("samelight|check|readings.csv|--range|", "full limited !client-set.csv"),
    ("samelight|check|--curve|p", "power: pq !srgb"),
    ("samelight|check|--json|", "client-set.csv readings.csv !white"),
    ("samelight|check|--for|c", "client !practitioner"),
    ("samelight|check|--|--ra", "!--range"),
    ("samelight|observer|cie2006", "cie2006-2deg !cie1931-2deg"),
    ("samelight|panel|", "crt !client-set.csv"),
]

# What is typed to zsh before the tabulator, and what must then be read.
ZSH = [
    ("samelight whi", "samelight white "),
    ("samelight meter cho", "samelight meter choose "),
    ("samelight check readings.csv --ran", "samelight check readings.csv --range"),
    ("samelight check readings.csv --range lim", "samelight check readings.csv --range limited"),
    ("samelight white client-s", "samelight white client-set.csv "),
    ("samelight white --type laser", "samelight white --type laser-rgb "),
    ("samelight meter fit --method four", "samelight meter fit --method four-colour "),
    ("samelight visit hall --instruments b", "samelight visit hall --instruments both "),
]


def bash(file, folder, words):
    """The answers, each with the part that bash leaves standing."""
    script = f'source "{file}"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); COMP_LINE="$*"; COMP_POINT=${{#COMP_LINE}}; _samelight; printf "%s\\n" "${{COMPREPLY[@]}}"'
    run = subprocess.run(["bash", "--norc", "-c", script, "bash", *words], cwd=folder, capture_output=True, text=True)
    if run.stderr:
        faults.append(f"bash, {words}: {run.stderr.strip()}")
    return set(run.stdout.split("\n")) - {""}


def check_bash(file, folder):
    subprocess.run(["bash", "-n", file], check=True)
    for line, wanted in BASH:
        words = line.split("|")
        answers = bash(file, folder, words)
        for name in wanted.split():
            # Bash replaces what stands behind the = alone.
            expected = name.lstrip("!").rpartition("=")[2] if "=" in words else name.lstrip("!")
            if (expected in answers) == name.startswith("!"):
                faults.append(f"bash, {line}: wanted {name}, found {sorted(answers)}")


class Zsh:
    """A zsh on a terminal of its own, with our completion."""

    def __init__(self, functions, folder):
        self.pid, self.terminal = pty.fork()
        if self.pid == 0:
            os.chdir(folder)
            os.environ.update(TERM="dumb", COLUMNS="300", LINES="50")
            os.execvp("zsh", ["zsh", "-f", "-i"])
        self.send(f"PS1= RPS1= PROMPT_EOL_MARK=; unsetopt ZLE_BRACKETED_PASTE; stty -echo cols 300 rows 50; fpath=({functions} $fpath); "
                  "autoload -Uz compinit; compinit -u -D; LISTMAX=0; print rea''dy\n")
        self.wait("ready")

    def send(self, text):
        os.write(self.terminal, text.encode())

    def wait(self, text, seconds=60):
        """What came until `text` did, or nothing more came."""
        got, end = "", time.monotonic() + seconds
        while text not in got and time.monotonic() < end:
            if select.select([self.terminal], [], [], 0.2)[0]:
                try:
                    got += os.read(self.terminal, 65536).decode(errors="replace")
                except OSError:
                    break
        return got

    def close(self):
        self.send("\x03\nexit\n")
        os.close(self.terminal)
        os.waitpid(self.pid, 0)


def check_zsh(functions, folder):
    if not shutil.which("zsh"):
        print("zsh isn't here, so its completion isn't tried")
        return
    subprocess.run(["zsh", "-n", functions / "_samelight"], check=True)
    zsh = Zsh(functions, folder)
    for typed, wanted in ZSH:
        # Control-U clears the line; it is then printed instead of run.
        zsh.send("\x15" + typed + "\t\x1b[H\x01print -r -- '[\x05]'\n")
        # The space that stands behind a whole word goes as the next one is typed.
        shown = f"[{wanted.rstrip()}]\r\n"
        got = zsh.wait(shown, 20)
        if shown not in got:
            faults.append(f"zsh, {typed}: wanted {wanted!r}, found {got!r}")
    zsh.close()


def check_values_are_accepted(work):
    """Each list of names of an option once, on the first command that has it: behind the first example of its page."""
    root = described(PROGRAM)
    table = (ROOT / "tools" / "samelight" / "described" / "offered_values.cpp").read_text(encoding="utf-8")
    told = {(name, value) for name, values in re.findall(r'\{"(--[a-z-]+)",\s*\{([^}]*)\}\}', table) for value in re.findall(r'"([^"]+)"', values)}
    offered = {(name, value) for command in root.walk() for option in command.options for name in option.names for value in option.values}
    for name, value in sorted(told - offered):
        faults.append(f"offered_values.cpp: no description of {name} says {value}")
    seen = set()
    for command in root.walk():
        prose = (ROOT / "src" / "docs" / "man" / f"{command.page}.md").read_text(encoding="utf-8")
        lines = [line for example in roff.examples(prose) for line in example.replace("\\\n", " ").split("\n")]
        for option in command.options:
            key = (*option.names, *option.values)
            if option.positional or not option.values or key in seen or any(value[-1] in "=:" for value in option.values if option.names != ["--curve"]):
                continue
            seen.add(key)
            wanted = None
            for value in ["nonesuch", *option.values]:
                # In the place of the value that an example has, else behind the first one.
                line = next((one for one in lines if f" {option.names[0]} " in one), f"{lines[0]} {option.names[0]} ?")
                needs = "".join(f" {other} made.html" for other in option.needs)
                typed = value + ("2.4" if value == "power:" else "1000" if value == "pq:" else "")
                line = re.sub(rf"( {option.names[0]}) \S+", rf"\1 {typed}", line, count=1) + needs
                run = subprocess.run(["sh", "-c", line], cwd=work, capture_output=True, text=True,
                                     env={**os.environ, "PATH": f"{work}:{os.environ['PATH']}"})
                # What is wanted in the place of an unknown name is the list of names; other refusals are about the example.
                refused = run.returncode != 0 and run.stderr.rpartition("; wanted ")[2]
                wanted = wanted or refused
                if not wanted or (refused == wanted) != (value == "nonesuch"):
                    faults.append(f"{line}: {'refused' if refused else 'accepted'}: {run.stderr.strip()}")
    return len(seen)


with tempfile.TemporaryDirectory() as name:
    work = pathlib.Path(name)
    subprocess.run([sys.executable, "-B", ROOT / "tools" / "packaging" / "completion.py", PROGRAM, work / "made"], check=True)
    demo = work / "demo"
    shutil.copytree(ROOT / "data" / "demo", demo)
    (demo / "samelight").symlink_to(PROGRAM)
    folder = work / "folder"
    folder.mkdir()
    for file in ("client-set.csv", "readings.csv"):
        (folder / file).touch()
    check_bash(work / "made" / "samelight", folder)
    check_zsh(work / "made", folder)
    count = check_values_are_accepted(demo)
    print(f"{len(BASH)} lines of bash, {len(ZSH)} of zsh, the names of {count} options: {len(faults)} faults")
if faults:
    sys.exit("\n".join(faults))
