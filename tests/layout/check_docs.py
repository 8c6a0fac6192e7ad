#!/usr/bin/env python3
"""The pages in src/docs say what is so. Usage: check_docs.py ROOT [COMMAND [--write]]

Links       lead to a page, a section or a file that there is.
Examples    that a page shows are in tools/examples, with what they print; and the page of jobs shows each of them, and names every header that is
            an entry and every subcommand.
Accuracy    the table is what the docstrings and tests say now.
Python      names in the page's table are names of the module.
With COMMAND, the built samelight:
Screens     between <!-- screen --> and <!-- /screen --> are what the command says (--write puts its words there instead).
Commands    that stand indented as code are understood and answered, in a copy of data/demo, each page's in their order.
Pictures    that a page asks for are of a report that is asked for: the figures themselves are made by tools/docs.
"""
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

from check_readme import SCREEN, said_now

FEWEST_LINKS = 20


def slug(heading):
    return re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-")


def sections(text):
    return {slug(m[1]) for m in re.finditer(r"^#{1,4} (.*)$", re.sub(r"^```.*?^```", "", text, flags=re.DOTALL | re.MULTILINE), re.MULTILINE)}


def prose(text):
    """A page without its blocks of code, and without code that looks like a link."""
    text = re.sub(r"`[^`\n]*`", "`code`", text)
    text = re.sub(r"^```.*?^```", "", text, flags=re.DOTALL | re.MULTILINE)
    return re.sub(r"^    .*$", "", text, flags=re.MULTILINE)


def link_faults(docs):
    """What is wrong with the links of all pages, and how many there are."""
    texts = {path.name: path.read_text(encoding="utf-8") for path in sorted(docs.glob("*.md"))}
    faults, count = [], 0
    for name, text in texts.items():
        for m in re.finditer(r"\[(?:`[^`]*`|[^\]`])*\]\(([^)\s]+)\)", prose(text)):
            count += 1
            file, _, section = m[1].partition("#")
            if re.match(r"\w+:", m[1]):
                continue
            target = texts.get(file or name)
            if target is None and (not file or not (docs / file).is_file()):
                faults.append(f"{name}: link to {m[1]}: there is no such file")
            elif section and section not in sections(target or ""):
                faults.append(f"{name}: link to {m[1]}: there is no such section")
    return faults, count


def example_faults(root, docs):
    examples = root / "tools" / "examples"
    faults, shown = [], set()
    for path in sorted(docs.glob("*.md")):
        for name in re.findall(r"<!-- example: (\S+) -->", path.read_text(encoding="utf-8")):
            shown.add(name)
            stem = pathlib.Path(name).stem + ("_py" if name.endswith(".py") else "")
            if not (examples / name).is_file() or not (examples / "expected" / (stem + ".txt")).is_file():
                faults.append(f"{path.name}: no example {name}, or nothing that says what it prints")
    for path in sorted(p for p in examples.iterdir() if p.suffix in (".cpp", ".c", ".py")):
        if path.name not in shown and path.stem != "one_small_matrix":
            faults.append(f"tools/examples/{path.name}: no page shows it")
    index = (docs / "index.md").read_text(encoding="utf-8")
    for header in sorted((root / "include" / "samelight").glob("*.hpp")):
        if header.name != "samelight.hpp" and f"`samelight/{header.name}`" not in index:
            faults.append(f"index.md: says nothing of samelight/{header.name}")
    for source in sorted((root / "tools" / "samelight").glob("*.cpp")):
        word = source.stem.split("_")[0]
        if word != "main" and f"samelight {word}" not in index:
            faults.append(f"index.md: says nothing of samelight {word}")
    return faults


def accuracy_faults(root):
    sys.path.insert(0, str(root / "src" / "docs" / "making"))
    from accuracy import table
    text, faults = table(root)
    page = root / "src" / "docs" / "accuracy.md"
    if not page.is_file() or page.read_text(encoding="utf-8") != text:
        faults.append("accuracy.md: isn't what the docstrings and tests say now: run src/docs/making/accuracy.py .")
    return faults


def python_faults(root, docs):
    stub = (root / "src" / "python" / "samelight.pyi").read_text(encoding="utf-8")
    names = set(re.findall(r"^\s*(?:def|class) (\w+)", stub, re.MULTILINE))
    rows = re.findall(r"^\| .* \|$", (docs / "python.md").read_text(encoding="utf-8"), re.MULTILINE)
    return [f"python.md: {name} is no name of the module" for row in rows for name in re.findall(r"`(\w+)`", row) if name not in names]


def picture_faults(root, docs):
    sys.path.insert(0, str(root / "src" / "docs" / "making"))
    from pictures import REPORTS, asked_for
    texts = [path.read_text(encoding="utf-8") for path in sorted(docs.glob("*.md"))]
    return [f"src/docs: no report {report}, of which a picture is shown" for report, _ in asked_for(texts) if report not in REPORTS]


def typed_in(text):
    """The lines of a page's code that call the command, without what they are piped into."""
    text = SCREEN.sub("", re.sub(r"^```.*?^```", "", text, flags=re.DOTALL | re.MULTILINE))
    for m in re.finditer(r"^    (samelight (?:[^\n]*\\\n)*[^\n]*)$", text, re.MULTILINE):
        yield shlex.split(m[1].replace("\\\n", " ").split(" | ")[0].split(" >")[0])[1:]


def command_faults(root, docs, command):
    faults = []
    for path in sorted(docs.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        for _, shown, _ in SCREEN.findall(text):
            wanted = said_now(shown, command, root / "data" / "demo")
            if shown != wanted:
                faults.append(f"{path.name}: a screen isn't what the command says now; wanted:\n{wanted}")
        with tempfile.TemporaryDirectory(prefix="samelight-docs-") as folder:
            demo = pathlib.Path(folder) / "demo"
            shutil.copytree(root / "data" / "demo", demo)
            for words in typed_in(text):
                done = subprocess.run([command, *words], cwd=demo, capture_output=True, text=True, check=False)
                if done.returncode != 0:
                    faults.append(f"{path.name}: samelight {' '.join(words)}: {done.stderr.strip()}")
    return faults


def main():
    root = pathlib.Path(sys.argv[1]).resolve()
    docs = root / "src" / "docs"
    command = pathlib.Path(sys.argv[2]).resolve() if len(sys.argv) > 2 else None
    if "--write" in sys.argv:
        for path in sorted(docs.glob("*.md")):
            text = path.read_text(encoding="utf-8")
            path.write_text(SCREEN.sub(lambda m: m[1] + said_now(m[2], command, root / "data" / "demo") + m[3], text), encoding="utf-8")
        return 0
    faults, links = link_faults(docs)
    if links < FEWEST_LINKS:
        faults.append(f"src/docs: {links} links; wanted {FEWEST_LINKS} at least")
    faults += example_faults(root, docs) + accuracy_faults(root) + python_faults(root, docs) + picture_faults(root, docs)
    if command:
        faults += command_faults(root, docs, command)
    for fault in faults:
        print(fault)
    print(f"{links} links, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
