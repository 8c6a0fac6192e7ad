#!/usr/bin/env python3
"""Makes the manual pages. Usage: manual.py COMMAND PROSE OUT [--gzip]

COMMAND is the built command, whose own option texts (`--describe`) are taken; PROSE the folder with a page of prose each, COMMAND.md (src/docs/man): what it
does, and after `## Commands`, which is filled in, or `## Options`, which is put before it, sections such as `## Examples`. OUT gets COMMAND.1 for each command,
or COMMAND.1.gz.

SOURCE_DATE_EPOCH, where it is set, is the day that the pages bear. A command without prose and prose without a command are faults.
"""
import datetime
import gzip
import os
import pathlib
import sys

import roff
from described import described, version_of


def name_of_value(option):
    return "NUMBER" if option.number else option.value


def usage_word(option):
    word = f"\\fI{roff.text(option.value)}\\fR"
    if option.repeats:
        word += " ..."
    return word if option.required else f"[{word}]"


def synopsis(command):
    words = [f".B {roff.text(' '.join(command.path))}"]
    if any(not option.positional for option in command.options):
        words.append("[\\fIOPTIONS\\fR]")
    words += [usage_word(option) for option in command.options if option.positional]
    if command.commands:
        words.append("\\fICOMMAND\\fR ...")
    return [".SH SYNOPSIS", *words]


def option_entry(option):
    if option.positional:
        head = f"\\fI{roff.text(option.value)}\\fR"
    else:
        head = ", ".join(f"\\fB{roff.text(name)}\\fR" for name in option.names)
        if option.value:
            head += f" \\fI{name_of_value(option)}\\fR"
    notes = []
    if option.required:
        notes.append("Required.")
    if option.default:
        notes.append(f"Unless given: \\fB{roff.text(option.default)}\\fR.")
    for words, others in (("Needs", option.needs), ("Not with", option.excludes)):
        notes += [f"{words} \\fB{roff.text(other)}\\fR." for other in others]
    body = roff.text(option.description)
    if notes and not body.endswith("."):
        body += "."
    return [".TP", head, " ".join([body, *notes]) or "\\&"]


def options_section(command):
    positional = [option for option in command.options if option.positional]
    named = [option for option in command.options if not option.positional]
    lines = []
    if positional:
        lines.append(".SH ARGUMENTS")
        for option in positional:
            lines += option_entry(option)
    lines.append(".SH OPTIONS")
    for option in named:
        lines += option_entry(option)
    return lines


def commands_section(command):
    lines = [".SH COMMANDS"]
    for one in command.commands:
        lines += [".TP", f"\\fB{roff.text(one.path[-1])}\\fR", roff.text(one.description) + f". See \\fB{roff.text(one.page)}\\fR(1)."]
    return lines


def see_also(command, root):
    """The one above, those below, and beside `samelight` itself nothing: its page lists them all."""
    pages = {root.page, *(one.page for one in command.commands), "-".join(command.path[:-1])} - {command.page, ""}
    return [".SH SEE ALSO", ",\n".join(f"\\fB{roff.text(page)}\\fR(1)" for page in sorted(pages))]


def page(command, root, prose, edition):
    version, day = edition
    lines = [f'.TH {roff.text(command.page.upper())} 1 {day} "samelight {version}" "User Commands"',
             ".SH NAME", f"{roff.text(command.page)} \\- {roff.text(command.description.rstrip('.'))}",
             *synopsis(command), ".SH DESCRIPTION"]
    options_said = False
    fresh = True
    for kind, content in roff.blocks(prose):
        if kind == "heading":
            if content == "Commands":
                lines += commands_section(command)
                continue
            if not options_said:
                lines += options_section(command)
                options_said = True
            lines.append(f".SH {roff.text(content.upper())}")
            fresh = True
            continue
        lines += [] if fresh else [".PP"]
        lines += roff.code(content) if kind == "code" else [roff.inline(content)]
        fresh = False
    if not options_said:
        lines += options_section(command)
    return "\n".join([*lines, *see_also(command, root)]) + "\n"


def write(file, text):
    """As it is, or, for a name that ends in .gz, packed: the same bytes whenever it is made."""
    if file.suffix != ".gz":
        file.write_text(text, encoding="ascii")
        return
    with open(file, "wb") as raw, gzip.GzipFile("", "wb", 9, raw, mtime=0) as packed:
        packed.write(text.encode("ascii"))


def main(program, prose_folder, out, suffix=".1"):
    root = described(program)
    prose_folder, out = pathlib.Path(prose_folder), pathlib.Path(out)
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    moment = datetime.datetime.fromtimestamp(int(epoch), datetime.timezone.utc) if epoch else datetime.datetime.now(datetime.timezone.utc)
    edition = version_of(program), moment.strftime("%Y-%m-%d")
    commands = {command.page: command for command in root.walk()}
    written = {file.stem for file in prose_folder.glob("*.md")}
    faults = [f"{prose_folder / name}.md: missing; wanted what `{name.replace('-', ' ')}` does, and an example" for name in sorted(commands.keys() - written)]
    faults += [f"{prose_folder / name}.md: no such command" for name in sorted(written - commands.keys())]
    if faults:
        print("\n".join(faults), file=sys.stderr)
        return 1
    out.mkdir(parents=True, exist_ok=True)
    for name, command in commands.items():
        prose = (prose_folder / f"{name}.md").read_text(encoding="utf-8")
        write(out / f"{name}{suffix}", page(command, root, prose, edition))
    return 0


if __name__ == "__main__":
    packed = sys.argv[4:] == ["--gzip"]
    if len(sys.argv) != 5 - (not packed):
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:4], ".1.gz" if packed else ".1"))
