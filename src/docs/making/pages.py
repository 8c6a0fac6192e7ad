#!/usr/bin/env python3
"""Makes of src/docs/*.md what doxygen reads: examples and pictures stand where the pages ask for them, links lead to pages, sections and files.

Usage: pages.py ROOT COMMAND OUT     Writes OUT/pages/*.md, OUT/figures.css and OUT/html/files/*, what the pages link to beside themselves.

In a page
    <!-- example: NAME -->             is tools/examples/NAME and what it prints
    <!-- picture: REPORT FIGURE -->    is a figure of a report that pictures.py asks the command for
    [words](other.md#section)          is a link to another page; a link to a file of the project is to a copy of it
"""
import pathlib
import re
import shutil
import sys

from pictures import PICTURE, Pictures

EXAMPLE = re.compile(r"<!-- example: (\S+) -->")
LINK = re.compile(r"\[((?:`[^`]*`|[^\]`])*)\]\(([^)\s]+)\)")
HEADING = re.compile(r"^(#{1,4}) (.*)$")
LANGUAGES = {".cpp": "cpp", ".c": "c", ".py": "py"}


def slug(heading):
    """A section's name in links, as the places that show Markdown make it."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-")


def blocks(text):
    """(is it prose, line) for every line: not what stands in fences, nor what is indented by four as code behind a blank line."""
    fenced, code, before = False, False, ""
    for line in text.split("\n"):
        if line.startswith("```"):
            fenced = not fenced
            yield False, line
        else:
            if line.startswith("    ") and (code or not before.strip()):
                code = True
            elif line.strip():
                code = False
            yield not fenced and not code, line
        before = line


def label(page, section=""):
    """A page's or section's name for doxygen."""
    return "page_" + page.replace("-", "_") + ("_" + section.replace("-", "_") if section else "")


def target(link, page, root):
    """(doxygen's name or the path that a link leads to, the file of the project that it needs)."""
    file, _, section = link.partition("#")
    if re.match(r"\w+:", link):
        return link, None
    if not file:
        return "@ref " + label(page, section), None
    if file.endswith(".md") and "/" not in file:
        return "@ref " + label(file[:-3], section), None
    source = (root / "src" / "docs" / file).resolve()
    return "files/" + source.name, source


def example(name, root):
    """An example's text and what it prints, as Markdown."""
    source = root / "tools" / "examples" / name
    printed = root / "tools" / "examples" / "expected" / (source.stem + ("_py" if source.suffix == ".py" else "") + ".txt")
    return (f"```{LANGUAGES[source.suffix]}\n{source.read_text(encoding='utf-8').rstrip()}\n```\n\nprints\n\n"
            f"```text\n{printed.read_text(encoding='utf-8').rstrip()}\n```")


def page_for_doxygen(path, root, pictures):
    """The page's text, and the files that it links to."""
    page, needed, lines = path.stem, set(), []

    def link(m):
        to, source = target(m[2], page, root)
        needed.update({source} if source else ())
        return f"[{m[1]}]({to})"

    for prose, line in blocks(path.read_text(encoding="utf-8")):
        if prose and (m := HEADING.match(line)):
            line = f"{m[1]} {m[2]} {{#{label(page, '' if m[1] == '#' else slug(m[2]))}}}"
        elif prose and (m := EXAMPLE.match(line)):
            line = example(m[1], root)
        elif prose and (m := PICTURE.match(line)):
            line = "\\htmlonly[block]\n" + pictures.figure(m[1], m[2]) + "\n\\endhtmlonly"
        elif prose:
            line = "" if re.match(r"<!-- /?screen -->", line) else LINK.sub(link, line)
        lines.append(line)
    return "\n".join(lines), needed


def main():
    root, command, out = pathlib.Path(sys.argv[1]).resolve(), sys.argv[2], pathlib.Path(sys.argv[3])
    pictures = Pictures(command, root)
    (out / "pages").mkdir(parents=True, exist_ok=True)
    (out / "html" / "files").mkdir(parents=True, exist_ok=True)
    for path in sorted((root / "src" / "docs").glob("*.md")):
        text, needed = page_for_doxygen(path, root, pictures)
        (out / "pages" / path.name).write_text(text, encoding="utf-8")
        for source in sorted(needed):
            shutil.copyfile(source, out / "html" / "files" / source.name)
    (out / "figures.css").write_text(pictures.styles(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
