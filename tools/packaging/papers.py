#!/usr/bin/env python3
"""Makes the copyright file and the Debian changelog of the packages. Usage: papers.py ROOT VERSION CONTACT OUT

The terms are those of LICENSE and of data/README.md, word for word; the changes those of CHANGELOG.md, whose newest section must be of VERSION.
SOURCE_DATE_EPOCH, where it is set, is the day that the changelog bears.
"""
import datetime
import email.utils
import gzip
import os
import pathlib
import re
import sys
import textwrap


def copyright_text(root):
    notices = (root / "data" / "README.md").read_text(encoding="utf-8").partition("\n## Licence\n")[2]
    if not notices:
        raise ValueError("data/README.md: no section `## Licence`")
    own = (root / "LICENSE").read_text(encoding="utf-8")
    return f"{own.rstrip()}\n\nOf the tables, from data/README.md:\n\n{notices.strip()}\n"


def sections(changelog):
    """(version, entries) of each section of CHANGELOG.md, the newest first."""
    for section in re.split(r"^## ", changelog, flags=re.MULTILINE)[1:]:
        heading, _, body = section.partition("\n")
        version = re.match(r"\d+\.\d+\.\d+", heading)
        if not version:
            raise ValueError(f"CHANGELOG.md: {heading!r}; wanted a version")
        entries = [" ".join(entry.split()) for entry in re.split(r"^- ", body, flags=re.MULTILINE)]
        yield version[0], [entry for entry in entries if entry]


def changelog_text(root, version, contact):
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    day = datetime.datetime.fromtimestamp(int(epoch), datetime.timezone.utc) if epoch else datetime.datetime.now(datetime.timezone.utc)
    all_sections = list(sections((root / "CHANGELOG.md").read_text(encoding="utf-8")))
    if not all_sections or all_sections[0][0] != version:
        raise ValueError(f"CHANGELOG.md: its newest section isn't of {version}, which is the version that is built")
    made = []
    for number, entries in all_sections:
        items = "\n".join(textwrap.fill(entry, 78, initial_indent="  * ", subsequent_indent="    ", break_long_words=False) for entry in entries)
        made.append(f"samelight ({number}) unstable; urgency=medium\n\n{items}\n\n -- {contact}  {email.utils.format_datetime(day)}\n")
    return "\n".join(made)


def main(root, version, contact, out):
    root, out = pathlib.Path(root), pathlib.Path(out)
    out.mkdir(parents=True, exist_ok=True)
    (out / "copyright").write_text(copyright_text(root), encoding="utf-8")
    with open(out / "changelog.gz", "wb") as file, gzip.GzipFile("", "wb", 9, file, mtime=0) as packed:
        packed.write(changelog_text(root, version, contact).encode())


if __name__ == "__main__":
    if len(sys.argv) != 5:
        sys.exit(__doc__)
    main(*sys.argv[1:])
