#!/usr/bin/env python3
"""Checks the manual pages. Usage: check_manual.py COMMAND ROOT

Each command has a page that holds its options and the commands below it, as `--help` names them, which is another way than the one by which the pages are made; groff
finds nothing to warn of; every example in the prose can be run in the demo's folder; all bear the version of include/samelight/numeric/version.hpp.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

PROGRAM, ROOT = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
sys.path.insert(0, str(ROOT / "tools" / "packaging"))
import papers  # noqa: E402
import roff  # noqa: E402

MAKER = [sys.executable, "-B", str(ROOT / "tools" / "packaging" / "manual.py"), str(PROGRAM)]
PROSE = ROOT / "src" / "docs" / "man"
faults = []


def fault(words):
    faults.append(words)


def said(*line):
    return subprocess.run([PROGRAM, *line], check=True, capture_output=True, text=True, encoding="utf-8").stdout


def plain(page):
    """The words of a page, without roff."""
    text = re.sub(r"\\f[BIR]", "", page)
    text = re.sub(r"\\\[u([0-9A-F]{4,5})\]", lambda m: chr(int(m[1], 16)), text)
    for escape, c in {"\\(aq": "'", "\\(ga": "`", "\\(ha": "^", "\\(ti": "~", "\\(dq": '"', "\\&": "", "\\-": "-", "\\e": "\\"}.items():
        text = text.replace(escape, c)
    return " ".join(text.split())


def sections(help_text):
    """The titled parts of --help: "Options", "Subcommands", "Positionals"."""
    parts = re.split(r"^(\w+):\n", help_text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2]))


def entries(section):
    """(names, description) of each entry: names stand two columns in, descriptions on their line and on those behind it."""
    for entry in re.split(r"^  (?=\S)", section, flags=re.MULTILINE)[1:]:
        first, _, rest = entry.partition("\n")
        # Longer names fill their line, and "Needs: --OPTION" belongs to them.
        head, description = (first[:28], first[28:]) if first[27:28] == " " and "Needs:" not in first[28:] else (first, "")
        yield head, " ".join((description + " " + rest).split())


def check_command(path, pages):
    name = "-".join(["samelight", *path])
    file = pages / f"{name}.1"
    if not file.is_file():
        fault(f"{name}.1: not made")
        return
    page = file.read_text(encoding="ascii")
    words = plain(page)
    parts = sections(said(*path, "--help"))
    for head, _ in entries(parts["Options"]):
        for option in head.split()[0].split(","):
            if f"\\fB{roff.text(option)}\\fR" not in page:
                fault(f"{name}.1: lacks {option}")
        for other in re.findall(r"Needs: (--\S+)", head):
            if f"Needs {other}." not in words:
                fault(f"{name}.1: lacks that {head.split()[0]} needs {other}")
    for title in ("Options", "Positionals", "Subcommands"):
        for head, description in entries(parts.get(title, "")):
            if not description or description.rstrip(".") not in words:
                fault(f"{name}.1: lacks what --help says of {head.split()[0]}: {description}")
    for head, _ in entries(parts.get("Subcommands", "")):
        command = head.strip()
        if f"\\fB{command}\\fR" not in page:
            fault(f"{name}.1: lacks the command {command}")
        check_command([*path, command], pages)


def check_layout(pages):
    groff = shutil.which("groff")
    for file in sorted(pages.glob("*.1")) if groff else []:
        warned = subprocess.run([groff, "-man", "-ww", "-Tutf8", "-z", str(file)], capture_output=True, text=True).stderr
        if warned:
            fault(f"{file.name}: groff warns: {warned.strip()}")
    if not groff:
        print("groff isn't here, so the pages' layout isn't checked")


def check_examples(work):
    demo = work / "demo"
    shutil.copytree(ROOT / "data" / "demo", demo)
    (work / "bin").mkdir()
    (work / "bin" / "samelight").symlink_to(PROGRAM)
    environment = {**os.environ, "PATH": f"{work / 'bin'}:{os.environ['PATH']}"}
    count = 0
    for file in sorted(PROSE.glob("*.md")):
        examples = roff.examples(file.read_text(encoding="utf-8"))
        if not examples:
            fault(f"{file.name}: no example")
        for example in examples:
            count += 1
            run = subprocess.run(["sh", "-ec", example], cwd=demo, env=environment, capture_output=True, text=True, encoding="utf-8")
            if run.returncode != 0:
                fault(f"{file.name}: ended with {run.returncode}: {example}\n{run.stderr.strip()}")
    return count


def check_version(pages):
    header = (ROOT / "include" / "samelight" / "numeric" / "version.hpp").read_text(encoding="utf-8")
    version = re.search(r'version = "(\d+\.\d+\.\d+)"', header)[1]
    if said("--version") != f"samelight {version}\n":
        fault(f"samelight --version says {said('--version')!r}, version.hpp {version}")
    for file in pages.glob("*.1"):
        if f'"samelight {version}"' not in file.read_text(encoding="ascii"):
            fault(f"{file.name}: isn't of version {version}")
    try:
        if f"samelight ({version}) " not in papers.changelog_text(ROOT, version, "N <n@example.org>"):
            fault("the packages' changelog lacks the version")
    except ValueError as error:
        fault(str(error))
    for notice in (ROOT / "LICENSE", ROOT / "data" / "README.md"):
        line = next(line for line in notice.read_text(encoding="utf-8").splitlines() if "Copyright" in line)
        if line not in papers.copyright_text(ROOT):
            fault(f"the packages' copyright lacks {line!r}")


def check_that_faults_are_found(work):
    for change, wanted in ((lambda prose: (prose / "samelight-white.md").unlink(), "samelight-white.md: missing"),
                           (lambda prose: (prose / "samelight-nonesuch.md").write_text("No such command.\n"), "no such command")):
        prose = work / "prose"
        shutil.rmtree(prose, ignore_errors=True)
        shutil.copytree(PROSE, prose)
        change(prose)
        run = subprocess.run([*MAKER, prose, work / "never"], capture_output=True, text=True)
        if run.returncode == 0 or wanted not in run.stderr:
            fault(f"manual.py: found nothing wrong where it should say {wanted!r}")


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    pages = work / "man1"
    subprocess.run([*MAKER, PROSE, pages], check=True)
    check_command([], pages)
    check_layout(pages)
    check_version(pages)
    check_that_faults_are_found(work)
    examples = check_examples(work)
    print(f"{len(list(pages.glob('*.1')))} pages, {examples} examples run, {len(faults)} faults")
if faults:
    sys.exit("\n".join(faults))
