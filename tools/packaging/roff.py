"""Text and simple Markdown as the roff of manual pages (man(7))."""
import re


def text(words):
    """Words that stand for themselves: nothing in them is a request, and what is to be copied stays ASCII."""
    special = {"\\": "\\e", "-": "\\-", "'": "\\(aq", "`": "\\(ga", "^": "\\(ha", "~": "\\(ti", '"': "\\(dq"}
    shown = "".join(special.get(c, c) if ord(c) < 128 else f"\\[u{ord(c):04X}]" for c in words)
    return "\\&" + shown if shown.startswith(".") else shown


def inline(words):
    """A paragraph in which `code` is bold and *a term* is italic."""
    made = ""
    for part in re.split(r"(`[^`]+`|\*[^*]+\*)", words):
        if part.startswith("`"):
            made += f"\\fB{text(part[1:-1])}\\fR"
        elif part.startswith("*"):
            made += f"\\fI{text(part[1:-1])}\\fR"
        else:
            made += text(part)
    return "\\&" + made if made.startswith((".", "'")) else made


def blocks(markdown):
    """(kind, content) of each block: "heading" a title, "code" lines, "text" a paragraph."""
    for block in re.split(r"\n{2,}", markdown.strip("\n")):
        lines = block.split("\n")
        if block.startswith("## "):
            yield "heading", block[3:].strip()
        elif all(line.startswith("    ") for line in lines):
            yield "code", [line[4:] for line in lines]
        else:
            yield "text", " ".join(line.strip() for line in lines)


def code(lines):
    """A display that is to be typed as it stands."""
    return [".RS 4", ".nf", *(text(line) for line in lines), ".fi", ".RE"]


def examples(markdown):
    """The lines to type, one text a block of code; goes on where a line ends with a backslash."""
    return ["\n".join(content) for kind, content in blocks(markdown) if kind == "code"]
