#!/usr/bin/env python3
"""A public header as doxygen is to read it. Usage: header_filter.py HEADER

Our docstrings are plain text with `code` in backticks: what doxygen would take for markup is escaped, so that `L*`, `<` and `#` stay what they are. A
header's opening comment becomes its file's; functions that share the docstring above them get it each; marks of the build are left out.
"""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "tests" / "layout"))
from check_docstrings import blanked, declarations, with_docstrings  # noqa: E402

OPENING = re.compile(r"^(?:#pragma once\n)?((?:// ?[^\n]*\n)+)")
MARKS = re.compile(r"\b(SAMELIGHT_API|SAMELIGHT_C_API|SAMELIGHT_INLINE)\s+|\[\[nodiscard\]\]\s+|::inline SAMELIGHT_FORM\b|^inline namespace SAMELIGHT_\w+ \{$", re.MULTILINE)


def escaped(text):
    """Text outside of `code` with nothing in it that is markup; @param stays."""
    parts = re.split(r"(`[^`]*`)", text)
    for i in range(0, len(parts), 2):
        part = re.sub(r"@(?!param\b)", "\\\\@", re.sub(r"\\", "\\\\\\\\", parts[i]))
        part = re.sub(r"([<>#&*~|])", r"\\\1", part)
        part = re.sub(r"(?<!\w)_|_(?!\w)", r"\\_", part)
        parts[i] = part.replace("--", "\\--").replace("%", "\\%")
    for i in range(1, len(parts), 2):
        parts[i] = "``" + parts[i][1:-1] + "``" if "'" in parts[i] else parts[i]
    return "".join(parts)


def opening(text):
    """The comment that a header opens with, as its file's docstring: prose, then the program, then the list of names as it stands."""
    m = OPENING.match(text)
    if not m:
        return text
    lines = [re.sub(r"^// ?", "", line) for line in m[1].rstrip("\n").split("\n")]
    out, state = ["/// @file"], "prose"
    for line in lines:
        if line.startswith("```"):
            state = "list" if state == "code" else "code"
            out.append("/// " + line)
            out += ["///", "/// ```text"] if state == "list" else []
        elif state == "prose":
            out.append("/// " + escaped(line))
        else:
            out.append("/// " + line)
    if state == "list":
        out.append("/// ```")
    return "\n".join(out) + "\n\n" + text[m.end():]


def shared(text):
    """The docstring of the function above for each that stands right below it without one."""
    lines = text.split("\n")
    for one in sorted(with_docstrings(text, list(declarations(blanked(text)))), key=lambda d: -d.line):
        if one.kind == "function" and one.docstring and not re.match(r"\s*//", lines[one.line - 1]):
            indent = re.match(r"\s*", lines[one.line])[0]
            lines.insert(one.line, f"{indent}/// {one.docstring}")
    return "\n".join(lines)


def main():
    text = pathlib.Path(sys.argv[1]).read_text(encoding="utf-8")
    text = shared(text)
    text = re.sub(r"^(\s*///) ?([^\n]*)$", lambda m: m[1] + " " + (m[2] if m[2] in ("", "\\file") else escaped(m[2])), text, flags=re.MULTILINE)
    text = MARKS.sub("", opening(text))
    sys.stdout.write(text)


if __name__ == "__main__":
    main()
