#!/usr/bin/env python3
"""Checks every #include of the library against rooms.txt. Usage: check_rooms.py ROOT

- A room includes only the rooms that rooms.txt allows it.
- Headers of the project are included as "samelight/ROOM/NAME.hpp", the private ones of src/ as "ROOM/FOLDER/NAME.hpp" or
  "ROOM/FOLDER/PART/NAME.hpp" and in their own
  room alone; the folders of a room in src/ stand in an order, without a circle.
- No folder holds over 20 files.
- Only headers named *_batch.hpp include the SIMD library.
- Only report/ and tools/ know the command: elsewhere no string holds an option's name (`--columns`), and no Error's place is a
  subcommand's ("meter fit").
- A header directly in samelight/ is an entry header: samelight.hpp, or one that it names. It holds comments and #include lines.
"""
import pathlib
import re
import sys

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')
COMMENT_OR_STRING = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"', re.DOTALL)
OPTION = re.compile(r'--[a-z"]')
# Not `observer`, which is what a value is called, too.
COMMAND_AS_PLACE = re.compile(r'\bError\(\s*ErrorKind::\w+,\s*(?:ErrorPlace\{)?"((?:white|metamerism|meter(?: \w+)?|spectrum|panel)(?:,[^"]*)?)"')
SUFFIXES = {".hpp", ".h", ".cpp", ".cc", ".inc", ".ipp"}
MOST_FILES = 20
ROOMS_FILE = pathlib.Path(__file__).resolve().parent / "rooms.txt"


def read_rooms(text):
    """The rooms with all the rooms they may include, directly or through others."""
    allowed = {}
    for number, line in enumerate(text.splitlines(), 1):
        line = line.partition("#")[0].strip()
        if not line:
            continue
        room, colon, others = line.partition(":")
        room = room.strip()
        if not colon or room in allowed:
            raise ValueError(f"rooms.txt, line {number}: wanted one line `room: rooms` for each room")
        allowed[room] = {room}
        for other in others.split():
            if other not in allowed:
                raise ValueError(f"rooms.txt, line {number}: {other} does not stand above {room}")
            allowed[room] |= allowed[other]
    return allowed


def includes(path):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        match = INCLUDE.match(line)
        if match:
            yield number, match[1] == '"', match[2]


def named_in(index):
    """The entry headers: the index and the files that it names, in an #include or in its comment."""
    text = index.read_text(encoding="utf-8") if index.is_file() else ""
    return {index.name} | set(re.findall(r"(?:^//|\"samelight/)\s*(\w+\.hpp)\b", text, re.MULTILINE))


def code_in(path):
    """(number, line) of each line that is no comment, no #include and no #pragma."""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if line.strip() and not line.startswith("//") and not INCLUDE.match(line) and line.strip() != "#pragma once":
            yield number, line.strip()


def crowded(root):
    """The folders under include/ and src/ with too many files at one level."""
    for folder in sorted(p for top in ("include", "src") for p in (root / top).rglob("*") if p.is_dir()):
        files = sum(p.is_file() for p in folder.iterdir())
        if files > MOST_FILES:
            yield f"{folder.relative_to(root)}: {files} files at one level, wanted at most {MOST_FILES}"


def circles(root):
    """The folders of src/ that reach themselves by their private includes."""
    reaches = {}
    for path in sorted(p for p in (root / "src").rglob("*") if p.suffix in SUFFIXES):
        own = path.parent.relative_to(root / "src").as_posix()
        for _, quoted, target in includes(path):
            other = target.rpartition("/")[0]
            if quoted and not target.startswith("samelight/") and other != own:
                reaches.setdefault(own, set()).add(other)
    for start in sorted(reaches):
        seen, ahead = set(), set(reaches[start])
        while ahead:
            seen |= ahead
            ahead = {other for one in ahead for other in reaches.get(one, ())} - seen
        if start in seen:
            yield f"src/{start}: reaches itself by way of {', '.join(sorted(reaches[start]))}"


def words_of_the_command(text):
    """The options that strings of `text` name, and the subcommands that stand in the place of an Error."""
    strings = [m[0] for m in COMMENT_OR_STRING.finditer(text) if m[0].startswith('"')]
    yield from (string for string in strings if OPTION.search(string))
    yield from (f'"{m[1]}" as the place of an Error' for m in COMMAND_AS_PLACE.finditer(text))


def fault(path, quoted, target, room, allowed, src):
    """What is wrong with one include, or None."""
    parts = target.split("/")
    if parts[0] == "xsimd" and not path.name.endswith("_batch.hpp"):
        return "only *_batch.hpp may include the SIMD library"
    if parts[0] == "samelight":
        other = "umbrella" if len(parts) == 2 else parts[1]
        if ".." in parts or other not in allowed:
            return f"{target} lies in no room of rooms.txt"
        if other not in allowed[room]:
            return f"{room} may not include {other}"
    elif quoted and not (src and len(parts) in (3, 4) and parts[0] == room and ".." not in parts and (src / target).is_file()):
        return f'"{target}" should be "samelight/ROOM/NAME.hpp"'
    return None


def check(root, allowed):
    """All faults under include/ and src/, one line each, and the number of includes looked at."""
    faults, count = [*crowded(root), *circles(root)], 0
    entries = named_in(root / "include" / "samelight" / "samelight.hpp")
    for folder in (root / "include" / "samelight", root / "src"):
        for path in sorted(p for p in folder.rglob("*") if p.suffix in SUFFIXES):
            inner = path.relative_to(folder).parts
            room = inner[0] if len(inner) > 1 else "umbrella"
            if folder.name == "src" and room == "compiled":  # one source a room, which includes the room's bodies
                room = path.stem
            name = path.relative_to(root)
            if room != "report":
                faults += [f"{name}: {words}: only report and tools know the command"
                           for words in words_of_the_command(path.read_text(encoding="utf-8"))]
            entry = room == "umbrella" and folder.name == "samelight"
            if room not in allowed or (room == "umbrella" and not (entry and inner[0] in entries)):
                more = ", and samelight.hpp does not name it" if entry else ""
                faults.append(f"{name}: lies in no room of rooms.txt{more}")
                continue
            if entry:
                faults += [f"{name}:{number}: {line}; an entry header holds #include lines only" for number, line in code_in(path)]
            for number, quoted, target in includes(path):
                count += 1
                wrong = fault(path, quoted, target, room, allowed, folder if folder.name == "src" else None)
                if wrong:
                    faults.append(f"{name}:{number}: {wrong}")
    for path in sorted((root / "tools").rglob("*.[ch]pp")):
        for number, _, target in includes(path):
            count += 1
            if target.startswith("xsimd/"):
                faults.append(f"{path.relative_to(root)}:{number}: only *_batch.hpp may include the SIMD library")
    return faults, count


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    faults, count = check(pathlib.Path(sys.argv[1]), read_rooms(ROOMS_FILE.read_text(encoding="utf-8")))
    print("\n".join(faults + [f"{count} includes, {len(faults)} faults"]))
    # A tree without a single include is a wrong path, not a clean tree.
    sys.exit(1 if faults or not count else 0)


if __name__ == "__main__":
    main()
