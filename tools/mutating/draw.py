"""Which changes are tried: drawn by a seed, from every room in proportion to the lines of code that it has."""
import collections
import hashlib
import random
import re

from sites import Change, changes

# The tests that each room's changes must fail, as CMake names their programs; samelight_command: the tests of the suite that run it.
ROOMS = {
    "numeric": ["test_numeric", "test_threads"], "spectrum": ["test_spectrum"], "observer": ["test_observer"], "colour": ["test_colour"],
    "display": ["test_display"], "white": ["test_white"], "metamerism": ["test_metamerism"], "meter": ["test_meter"],
    "check": ["test_check"], "assess": ["test_assess"], "io": ["test_io"], "report": ["test_report", "samelight_command", "test_tools"],
    "c": ["test_c"], "tables": ["test_tables"],
}
# How often a kind is drawn. A call with its arguments in the other order seldom compiles.
WEIGHTS = {"operator": 5, "comparison": 4, "constant": 5, "sign": 2, "logic": 3, "call": 3, "order": 1}


def room_of(path):
    """The room that a file of include/samelight or src belongs to, or None."""
    parts = path.split("/")
    if parts[0] == "include" and len(parts) > 3 and parts[2] in ROOMS and path.endswith((".hpp", ".ipp")):
        return parts[2]
    if parts[0] == "src" and parts[1] in ("io", "report", "c") and path.endswith((".cpp", ".hpp")) and "/windows/" not in path:
        return parts[1]
    return None


def sources(root, files):
    """By room: the path and text of each of its files."""
    rooms = collections.defaultdict(list)
    for path in files:
        room = room_of(path)
        if room:
            rooms[room].append((path, (root / path).read_text(encoding="utf-8")))
    return rooms


def code_lines(text):
    return sum(1 for line in text.split("\n") if line.strip() and not line.strip().startswith("//"))


def quotas(rooms, total):
    """How many changes of each room: in proportion to its lines, at least two; tables have their own."""
    lines = {room: sum(code_lines(text) for _, text in files) for room, files in rooms.items() if room != "tables"}
    whole = sum(lines.values())
    return {room: max(2, round(total * count / whole)) for room, count in lines.items()}


def identity(room, change, text):
    """A name that stays while the line and what is changed on it stay."""
    line = text.split("\n")[change.line - 1]
    digest = hashlib.sha256(f"{change.path}|{line}|{change.column}|{change.kind}|{change.plain}".encode()).hexdigest()
    return f"{room}-{digest[:6]}"


def in_order(room, files, seed):
    """All changes of a room in the order in which they are drawn, at most one a line and one a declared constant."""
    draw = random.Random(f"{seed}/{room}")
    kinds = collections.defaultdict(list)
    texts = dict(files)
    for path, text in sorted(files):
        for change in changes(path, text):
            kinds[change.kind].append(change)
    for kind in sorted(kinds):
        draw.shuffle(kinds[kind])
    taken = set()
    while any(kinds.values()):
        names = sorted(kind for kind in kinds if kinds[kind])
        kind = draw.choices(names, [WEIGHTS[name] for name in names])[0]
        change = kinds[kind].pop()
        place = [(change.path, change.line)]
        if change.declared:
            place.append((change.path, "declared", change.declared[0]))
        lines = change.plain.count("\n") + texts[change.path][change.start:change.end].count("\n")
        place += [(change.path, change.line + k) for k in range(1, lines + 1)]
        if taken.isdisjoint(place):
            taken.update(place)
            yield identity(room, change, texts[change.path]), change


def table_changes(files, seed):
    """One digit changed in each array of each table."""
    for path, text in sorted(files):
        for match in re.finditer(r"inline constexpr std::array<double, \d+> (\w+)\{\{(.*?)\}\};", text, re.DOTALL):
            draw = random.Random(f"{seed}/{path}/{match.group(1)}")
            numbers = [m for m in re.finditer(r"-?[0-9][0-9.]*(?:e[-+]?[0-9]+)?", match.group(2)) if float(m.group()) != 0.0]
            number = draw.choice(numbers)
            digits = [k for k, letter in enumerate(number.group()) if letter.isdigit() and "e" not in number.group()[:k]]
            k = draw.choice(digits)
            digit = draw.choice([d for d in "0123456789" if d != number.group()[k]])
            other = number.group()[:k] + digit + number.group()[k + 1:]
            start = match.start(2) + number.start()
            line = text.count("\n", 0, start) + 1
            change = Change("digit", path, line, start - text.rfind("\n", 0, start), start, start + len(number.group()), other,
                            f"mutant::value(SWITCH, {number.group()}, {other})",
                            (match.start() + len("inline "), match.start() + len("inline constexpr"), "namespace"))
            yield identity("tables", change, text), change
