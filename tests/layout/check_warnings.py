#!/usr/bin/env python3
"""Checks the warnings that the library makes against the lists of their kinds. Usage: check_warnings.py ROOT

Each room lists its codes, with the facts that each brings, in include/samelight/ROOM/warning_kinds.hpp (see WarningKind). A warning is made
as `Warning{"code", {{"fact", value}, ...}}`, or with a constant for the code; a fact that is added to one as `Fact{"fact", value}`.

- Each code that is made is listed, in the room that makes it or in a lower one, with each fact that is made with it.
- Each code that is listed is made, each of its facts is made with it or added somewhere, and those that aren't optional ("?") stand in
  every warning of that code that brings facts in its braces.
- A warning's code is output: outside report/ nothing is decided by comparing one, but where a stored correction's warnings, which are all that
  is kept of what was found, are understood again.
- Sentences are made in report/ alone: nothing else holds a fact or a member called `message`, but for what reads files of before facts; and no
  literal of four words or more stands in include/, but in an error, a static_assert or a preprocessor's, and but for NAMES and ERRORS below.
"""
import collections
import pathlib
import re
import sys

KIND = re.compile(r'\{"(\w+)",\s*((?:"[^"]*"\s*)+)\}')
CONSTANT = re.compile(r'constexpr const char\* (\w+) = "(\w+)";')
MADE = re.compile(r'\bWarning(?: (?!find)\w+)?\{\s*(?:"(\w+)"|((?:\w+::)*\w+))\s*(?=[,}])')
UNNAMED = re.compile(r'\b(?:warnings|notes|flags|left_out)\.(?:push_back|emplace_back)\(\s*\{\s*(?:"\w+"|\w*code\w*)\s*,')
IN_BRACES = re.compile(r'\{\s*"([a-z]\w*)",')
ADDED = re.compile(r'\bFact(?: \w+)?\{\s*"([a-z]\w*)",')
COMMENT = re.compile(r"//[^\n]*|/\*.*?\*/", re.DOTALL)
FACT = re.compile(r"[a-z]\w*(\[\]|:text(\[\])?|(:\w+(\|\w+)+))?\??$")
COMPARED = re.compile(r"[\w)\]](?:\.|->)code\s*[=!]=|[=!]=\s*[\w.()>\[\]-]+(?:\.|->)code\b|&\s*code\s*=\s*\w+(?:\.|->)code\b")
COMPARES = {"include/samelight/meter/correction/impl/stored_correction.ipp"}
# Literals of four words or more that are no sentences but names and titles of things, and the sources of figures.
NAMES = {
    "tables/", "display/types/generic_crt_laser.hpp", "display/types/generic_filters.hpp", "display/types/generic_lcd.hpp",
    "display/types/generic_oled.hpp",  # types of displays: title, how to tell one, where each parameter comes from
    "colour/signals/rgb.hpp", "assess/impl/display_that_reads.ipp",  # titles of standards
    "observer/impl/cone_fundamentals.ipp", "observer/impl/individual.ipp", "observer/impl/standard.ipp",
    "metamerism/impl/special_index.ipp",  # titles and editions of observers
    "meter/correction/impl/correction.ipp", "meter/model/impl/model.ipp", "meter/selection/impl/keep_verdict.ipp",  # codes of files
    "white/impl/display_group.ipp", "white/impl/viewer_group.ipp",  # names of ways to set whites, told in JSON
    "white/impl/reference.ipp", "assess/impl/white_request.ipp",  # what a reference is, as its `meaning`
    "io/spectral_csv.hpp",  # the mark of a generic model in a file
}
# Words that only an error says, where they are chosen before it is thrown.
ERRORS = {
    "check/adjusting/impl/control_reply.ipp",
    "colour/appearance/ciecam16_viewing.hpp", "display/types/impl/generic_type.ipp", "meter/correction/impl/fit.ipp",
    "meter/readings/column_checks.hpp", "meter/readings/impl/reading_checks.ipp", "spectrum/impl/instrument.ipp",
    "white/impl/uncertainty.ipp",
}
LITERAL = r'"(?:[^"\\\n]|\\.)*"'
LITERALS = re.compile(LITERAL + r"(?:\s*" + LITERAL + ")*")
REFUSALS = re.compile(r"\b(?:Error|static_assert)\s*[({]|^[ \t]*#(?:[^\\\n]|\\\n|\\.)*", re.MULTILINE)
# A doubt's own code and facts stand in the warning that tells of it; a file's warnings hold what the file holds.
OF_OTHERS = {"src/report/warnings/warning_words.cpp", "src/io/corrections/correction_warnings.cpp"}


def kinds_in(text):
    """{code: {fact: optional}} of one list, and the faults of how it is written."""
    kinds, faults = {}, []
    for m in KIND.finditer(COMMENT.sub("", text)):
        facts = "".join(re.findall(r'"([^"]*)"', m[2])).split()
        faults += [f"{m[1]}: a fact written as \"{fact}\"" for fact in facts if not FACT.match(fact)]
        faults += [f"{m[1]}: listed twice"] if m[1] in kinds else []
        kinds[m[1]] = {re.split(r"[:\[?]", fact)[0]: fact.endswith("?") for fact in facts}
    return kinds, faults


def braces(text, opening):
    """What stands between the brace at `opening` and the one that closes it, strings aside."""
    depth, quoted, i = 0, False, opening
    while i < len(text):
        c = text[i]
        if quoted and c == "\\":
            i += 1
        elif c == '"':
            quoted = not quoted
        elif not quoted:
            depth += (c == "{") - (c == "}")
            if depth == 0:
                return text[opening + 1:i]
        i += 1
    return text[opening + 1:]


def sentences_in(text):
    """The literals of four words or more outside errors, each joined with those behind it."""
    refused = []
    for m in REFUSALS.finditer(text):
        end = m.end()
        if "#" not in m[0]:
            depth = 1
            for part in re.finditer(LITERAL + r"|[()\[\]{}]", text[end:]):
                depth += (part[0] in "([{") - (part[0] in ")]}")
                if depth == 0:
                    end += part.end()
                    break
        refused.append((m.start(), end))
    for m in LITERALS.finditer(text):
        said = "".join(part[1:-1] for part in re.findall(LITERAL, m[0]))
        if len(re.findall(r"[A-Za-z][A-Za-z']*", said)) >= 4 and " " in said and not any(a <= m.start() < b for a, b in refused):
            yield said


def warnings_in(text, constants):
    """(code or None where it is no constant, facts in its braces, whether it has such braces) of each warning that `text` makes."""
    for m in MADE.finditer(text):
        inner = braces(text, text.index("{", m.start()))
        code = m[1] or constants.get((m[2] or "").split("::")[-1])
        behind = inner.partition(",")[2]
        yield code, IN_BRACES.findall(behind), "{" in behind


def sources(root):
    for folder in ("include/samelight", "src"):
        for path in sorted((root / folder).rglob("*")):
            if path.suffix in {".hpp", ".ipp", ".cpp"} and path.name not in {"warning_kinds.hpp", "warning_kind.hpp"}:
                yield str(path.relative_to(root)), COMMENT.sub("", path.read_text(encoding="utf-8"))


def room_of(name):
    parts = pathlib.PurePath(name).parts
    return parts[2] if parts[0] == "include" else parts[1]


def check(root):
    kinds, faults = {}, []
    for path in sorted((root / "include" / "samelight").glob("*/warning_kinds.hpp")):
        kinds[path.parent.name], own = kinds_in(path.read_text(encoding="utf-8"))
        faults += [f"{path.relative_to(root)}: {fault}" for fault in own]
    files = list(sources(root))
    constants = {name: code for _, text in files for name, code in CONSTANT.findall(text)}
    added = {fact for _, text in files for fact in ADDED.findall(text)}
    made = collections.defaultdict(list)
    for name, text in files:
        if name.startswith("include/") and not any(name.startswith("include/samelight/" + own) for own in NAMES | ERRORS):
            faults += [f"{name}: \"{said}\": a sentence outside report/" for said in sentences_in(text)]
        if name in OF_OTHERS:
            continue
        faults += [f"{name}: {m[0]} ...: a warning without its type's name" for m in UNNAMED.finditer(text)]
        for code, facts, has_facts in warnings_in(text, constants):
            if code is None:
                faults.append(f"{name}: a warning whose code is no constant")
                continue
            room = room_of(name)
            where = room if code in kinds.get(room, {}) else next((r for r in kinds if code in kinds[r]), None)
            if where is None:
                faults.append(f"{name}: {code} stands in no warning_kinds.hpp")
                continue
            listed = kinds[where][code]
            made[where, code].append(facts)
            faults += [f"{name}: {code} is made with {fact}, which {where}/warning_kinds.hpp doesn't list"
                       for fact in facts if fact not in listed]
            faults += [f"{name}: {code} lacks {fact}" for fact, optional in listed.items()
                       if has_facts and not optional and fact not in facts and fact not in added]
        if not name.startswith("src/report/") and name not in COMPARES:
            faults += [f"{name}: {m[0]} ...: decided by a code" for m in COMPARED.finditer(text)]
        if not name.startswith("src/report/") and re.search(r'"message"', text):
            faults.append(f"{name}: a message outside report/")
    for where, listed in kinds.items():
        for code, facts in listed.items():
            brought = {fact for own in made[where, code] for fact in own} | added
            faults += [] if made[where, code] else [f"{where}/warning_kinds.hpp: {code} is made nowhere"]
            faults += [f"{where}/warning_kinds.hpp: {code} is never made with {fact}" for fact in facts if fact not in brought]
    return faults, sum(map(len, kinds.values()))


def main(root):
    faults, count = check(root)
    for line in faults:
        print(line, file=sys.stderr)
    print(f"{count} kinds of warnings, {len(faults)} faults")
    return 1 if faults or not count else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: check_warnings.py ROOT")
    sys.exit(main(pathlib.Path(sys.argv[1])))
