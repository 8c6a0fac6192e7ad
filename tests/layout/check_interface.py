#!/usr/bin/env python3
"""Checks the shape of the public interface. Usage: check_interface.py ROOT

A public function takes at most four parameters and no bool: what goes with it is a struct with named members, a choice is an enum.
Whatever stands in a namespace `detail` belongs to its room: another room may name it, `detail::name` or, from within a namespace `detail` of
its own, `name`, only if SHARED lists it, which is meant to shrink. A bare name counts where it can be no other thing: no other room below has one of
that name, nor does the room that uses it declare one (a value of an enum stands on a line of its own).
"""
import collections
import pathlib
import re
import sys

from check_rooms import ROOMS_FILE, read_rooms

MOST_PARAMETERS = 4
# Arithmetic for lanes of a batch, whose condition is a lane itself.
EXEMPT = {"select"}
SHARED = set(
    # numeric, for whoever needs its algebra, its checks and its random numbers
    "add_carried multiply SmallSolver golden_minimum simplex_minimum mix_bits sobol_bits require_freedom require_probability decimal_number number_or_nan "
    # formulas that batches take lane by lane, tags of observers
    "LabOf lab_from_ratios ciede2000 ciede2000_terms checked_tag "
    # checks that a page makes before it reads files, so that it can name the option
    "require_additivity_floor require_panels require_reading_noise require_viewer require_limits "
    # words
    "primary_names ".split())
CODE_ONLY = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"', re.DOTALL)
OPENING = re.compile(r"namespace ([\w: ]*?)\s*\{|\{|\}")
FUNCTION = re.compile(r"\b(~?\w+)\s*\(")
BRACKETS = re.compile(r"\((?:[^()]*[^()\s])?\s*\)|\([^()]+\)")
TEMPLATE = re.compile(r"template\s*<[^<>;{]*(?:<[^<>]*>[^<>;{]*)*>")
# What may stand before a name that is used; any other word before it makes it a declaration.
BEFORE_USE = "return|throw|case|else|new|typename|not|and|or|do"
NO_FUNCTIONS = {"if", "for", "while", "switch", "return", "static_assert", "decltype", "requires", "noexcept", "alignas", "sizeof", "catch",
                "explicit", "defined", "throw"}


def without_comments(text):
    # The name of a header in <> is no name of the code's.
    text = re.sub(r"^(\s*#\s*include) <[^>\n]*>", r"\1", text, flags=re.MULTILINE)
    return CODE_ONLY.sub(lambda m: '""' if m[0].startswith('"') else " ", text)


def at_namespace_scope(code, wanted_detail):
    """The text that stands directly in namespaces, or classes in them, that are `detail` or are none; bodies of functions left out."""
    kept, stack, position = [], [], 0
    for m in OPENING.finditer(code):
        before = code[position:m.start()]
        if not any(kind == "body" for kind, _ in stack) and (bool(stack) and stack[-1][1]) == wanted_detail:
            kept.append(before)
        position = m.end()
        inside = bool(stack) and stack[-1][1]
        if m[0].startswith("namespace"):
            stack.append(("scope", inside or "detail" in m[1].replace(" ", "::").split("::")))
        elif m[0] == "{":
            head = before[max(before.rfind(";"), before.rfind("}")) + 1:]
            is_type = re.search(r"\b(class|struct)\b", head) and not head.rstrip().endswith(")")
            stack.append(("scope" if is_type else "body", inside))
            if not is_type:
                kept.append("{}")
        elif stack:
            stack.pop()
    return "".join(kept)


def arguments(text, opening):
    """The parameters of the function whose bracket opens at `opening`, and what follows the closing one."""
    found, depth, start, angle = [], 0, opening + 1, 0
    for i in range(opening, len(text)):
        c = text[i]
        depth += (c in "([{") - (c in ")]}")
        angle += (c == "<") - (c == ">" and text[i - 1] != "-")
        if c == "," and depth == 1 and angle == 0:
            found.append(text[start:i].strip())
            start = i + 1
        if depth == 0:
            last = text[start:i].strip()
            return found + ([last] if last else []), text[i + 1:i + 40]
    return found, ""


def signatures(code):
    """(name, parameters) of each function that the public part of a header declares."""
    public = re.sub(r"\bprivate:.*?(?=\n\};|\Z)", "", at_namespace_scope(code, False), flags=re.DOTALL)
    for m in FUNCTION.finditer(public):
        if m[1] in NO_FUNCTIONS or m[1].isupper():
            continue
        parameters, rest = arguments(public, m.end() - 1)
        if re.match(r"\s*(const|noexcept|;|\{|->|&|=\s*(delete|default)|:)", rest) and all(re.search(r"\w[\s&*>]", p) for p in parameters):
            yield m[1], parameters


def faults_of_signatures(name, code):
    for function, parameters in signatures(code):
        if function in EXEMPT:
            continue
        if len(parameters) > MOST_PARAMETERS:
            yield f"{name}: {function}() takes {len(parameters)} parameters, {MOST_PARAMETERS} at most: make a struct of what belongs together"
        for parameter in parameters:
            if re.match(r"(const\s+)?bool\s+\w", parameter):
                yield f"{name}: {function}() takes a bool ({parameter}): make it an enum or a member of its options"


def detail_names(code):
    own = at_namespace_scope(code, True)
    yield from re.findall(r"\b(?:struct|class|using)\s+(?:SAMELIGHT_API\s+)?(\w+)", own)
    yield from (m[1] for m in FUNCTION.finditer(own) if m[1] not in NO_FUNCTIONS and not m[1].isupper())
    yield from re.findall(r"\bconstexpr\s[^=;(]*?\b(\w+)\s*[={]", own)


def faults_of_details(files):
    """files: {(room, name): code}."""
    rooms = collections.defaultdict(set)
    for (room, name), code in files.items():
        if name.endswith(".hpp"):
            for declared in detail_names(code):
                rooms[declared].add(room)
    for (room, name), code in files.items():
        for used in sorted(set(re.findall(r"\bdetail::(\w+)", code))):
            if used in rooms and room not in rooms[used] and used not in SHARED:
                yield f"{name}: {used} is a detail of {', '.join(sorted(rooms[used]))}: a room's details are its own"


def declared_names(code, in_detail):
    """Types, functions and constants that stand directly in namespaces, in `detail` or in none; nothing of classes and bodies."""
    kept, stack, position = [], [], 0
    for m in OPENING.finditer(code):
        inside = bool(stack) and stack[-1][1]
        if all(kind == "scope" for kind, _ in stack) and stack and inside == in_detail:
            kept.append(code[position:m.start()] + ("{" if m[0] == "{" else ""))
        position = m.end()
        if m[0].startswith("namespace"):
            stack.append(("scope", inside or "detail" in m[1].replace(" ", "::").split("::")))
        elif m[0] == "{":
            stack.append(("body", inside))
        elif stack:
            stack.pop()
    own, found = TEMPLATE.sub(" ", "".join(kept)), 1
    while found:  # parameters are no functions
        own, found = BRACKETS.subn("@", own)
    own = own.replace("(", "@")
    names = re.findall(r"\b(?:struct|class|enum(?: class)?|using)\s+(?:SAMELIGHT_API\s+)?(\w+)\s*[:={;]", own)
    names += re.findall(r"[\w>&*]\s+[&*]?(\w+)\s*@", own)
    names += re.findall(r"\bconstexpr\s[^=;@{]*?\b(\w+)\s*[={]", own)
    return {name for name in names if len(name) > 2}


def faults_of_bare_names(files, allowed):
    """files: {(room, name): code}; allowed: {room: rooms that it may include}, of a room that isn't in it all of them."""
    rooms, public, whole = collections.defaultdict(set), set(), collections.defaultdict(str)
    for (room, name), code in files.items():
        whole[room] += code + "\n"
        if name.startswith("include/"):
            public |= declared_names(code, False)
            for declared in declared_names(code, True):
                rooms[declared].add(room)
    for (room, name), code in files.items():
        for used in sorted(set(re.findall(r"\w+", code)) & rooms.keys() - public - SHARED):
            below = rooms[used] & set(allowed.get(room, allowed))
            if room in rooms[used] or len(below) != 1:
                continue
            declares = rf"(?:\b(?!(?:{BEFORE_USE})\b)\w+|[>&*\]])\s*(?<=[\s&*>])[&*]*{used}\s*[=;,(){{:\[]|\busing {used} =|\n\s*{used},?\n"
            if re.search(rf"(?<![\w.])(?<!->)(?<!::){used}\b(?!::)", code) and not re.search(declares, whole[room]):
                yield f"{name}: {used} is a detail of {', '.join(below)}: a room's details are its own"


def main(root):
    include = root / "include" / "samelight"
    files, faults = {}, []
    tops = (include, root / "src", root / "tools")
    for path in sorted(p for top in tops for p in top.rglob("*.[chi]pp")):
        own = path.relative_to(next(top for top in tops if top in path.parents))
        if own.parts[0] in ("compiled", "tables") or len(own.parts) < 2:
            continue
        name = str(path.relative_to(root))
        files[own.parts[0], name] = without_comments(path.read_text(encoding="utf-8"))
        if path.suffix == ".hpp" and include in path.parents:
            faults += faults_of_signatures(name, files[own.parts[0], name])
    faults += faults_of_details(files)
    faults += faults_of_bare_names(files, read_rooms(ROOMS_FILE.read_text(encoding="utf-8")))
    for line in faults:
        print(line, file=sys.stderr)
    count = sum(len(list(signatures(code))) for (_, name), code in files.items() if name.endswith(".hpp"))
    print(f"{count} public functions, {len(faults)} faults")
    return 1 if faults or count < 400 else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
