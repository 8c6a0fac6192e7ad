#!/usr/bin/env python3
"""Checks the docstrings of the public interface. Usage: check_docstrings.py ROOT

It looks at every function, free or member, and every class, struct and enum that include/samelight/ROOM/**/*.hpp declares and that
stands in no namespace `detail` and behind no `private:`. Generated tables are left out. What it wants:

meaning  A comment of `///` right above the declaration (a line NOLINT may stand between). Functions right below one another, with
         neither a blank line nor another comment between them, share the first one's. What begins with "The same" or says "as above"
         says what the function before it says, too, and "otherwise as f" what f in the same header says. Exempt: what is `= default`
         or `= delete`, destructors, constructors without parameters, copying and moving, operators that compare or print, friends,
         forward declarations, specialisations and their members.
units    A function that takes or gives numbers (NUMBERS: double, float, a formula's V, a matrix of Eigen's, three columns) names a unit
         or a shape in its docstring, or says that there is none (UNITS lists the words); or else its own name carries the unit of the
         result and the name of each number that it takes carries that one's (CARRIED: `_nm`, `_deg`, ...). For a member its class's
         docstring may say it.
throws   Where the body, in the header, in impl/*.ipp or in src/ROOM, says `throw` or calls a `require...` or `validate...`, the
         docstring says what is thrown, and doesn't say that nothing is. For a constructor its class's docstring may say it. What is
         thrown further down, in what the body calls, isn't seen.
source   In the rooms of formulas (FORMULAS) a free function's docstring, or the comment that its header opens with, names a source (a
         standard with its number, an author with a year, "Source: ...") or says that the thing is our own ("Own ...", "own rule").
         Exempt: functions that neither take nor give numbers or values of the library's; those that convert, check, name or look up
         (CONVERTS); operators.
behind   No comment stands behind a member (`///<`): comments stand above.

Whether the words are true no check can know. Valid ranges and bounds of errors are left to the reader and to the tests.
"""
import dataclasses
import pathlib
import re
import sys

from check_interface import FUNCTION, NO_FUNCTIONS, arguments

FORMULAS = {"numeric", "spectrum", "observer", "colour", "display", "white", "metamerism", "meter"}
FEWEST = 700
NUMBERS = re.compile(r"\b(double|float|V|Columns3)\b|\bEigen::(Ref|Map|Matrix|Vector|RowVector|Array)|\bRead(Column|Rows)?\b")
UNITS = re.compile(
    r"\b(nm|cd/m2|lx|degrees?|radians?|years?|K|mired|metres?|dB|bits?|per cent|percent|percentages?|relative|dimensionless|"
    r"chromaticity|chromaticities|tristimulus|x, y|XYZ|X, Y, Z|DE00|CIEDE2000|L, M, S|J, a, b|R, G, B|"
    r"luminances?|densit(y|ies)|probabilit(y|ies)|shares?|ratios?|factors?|lengths?|rows?|columns?|drives?|signals?|counts?|"
    r"standard deviations?|([Nn]o|[Tt]he|its|their|[Oo]ne|a|same|any|squared|without) units?|[Uu]nits? of|"
    r"\d+ (values|numbers)|[nkNmp] (values|numbers)|\w+ x \w+|(0|-1) to 1(00)?)\b|"
    r"[0-9] ?%|\b[LabuvCh]\*|\bu',? ?v'|\bDelta E|\b[Uu]nits?:")
CARRIED = re.compile(r"_(nm|k|deg|degrees|cd_m2|years|percent|uv|xy|de00|share|ratio|factor)(?=_|$)|^(wavelength|luminance|percent)")
THROWS = re.compile(r"\b[Tt]hrow(s|n)?\b|\bexceptions as\b|\belse Error\b")
NEVER_THROWS = re.compile(r"\b([Tt]hrows nothing|[Nn]ever throws)\b(?!,? but| of its own)")
SOURCE = re.compile(
    r"\bSources?:|\b[Ss]ources?,? as\b|"
    r"\b(ISO|ISO/CIE|JCGM|IEC|SMPTE|DIN|ASTM|ITU-R|EBU)( \w+)? [\w.]*\d|\bBT\.\d|\bCIE (TC |S |TN )?\d|"
    r"\b[A-Z][a-z]+( et al\.?|(,? (and|&) [A-Z][\w-]+)+)?,? \(?(18|19|20)\d\d\b|"
    r"\bOwn\b|\bown (construction|rule|method|definition|choice|limit|arithmetic)s?\b")
NO_SOURCE = re.compile(r"\bCIE (1931|1964|2006|2015|1976|1960)\b")
CONVERTS = re.compile(
    r"^(to|as|is|has|with|without|make|read|find|named|known|each|all|require)_|"
    r"_(named|id|name|names|text|word|words|title|label|code|from)$|^(name|names|operator.*|at|text|describe|code_of)$")
COMMENT = re.compile(r'//[^\n]*|/\*.*?\*/|R"\(.*?\)"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'', re.DOTALL)
STOP = re.compile(r"[;{}]|\b(?:public|protected|private)\s*:(?!:)")
TYPE = re.compile(r"(?:\[\[.*?\]\]\s*)?(class|struct|enum(?:\s+class)?)\s+(?:SAMELIGHT_API\s+)?(\w+)(\s*<)?")
OPERATOR = re.compile(r"\boperator\s*(\(\s*\)|\[\s*\]|[^\s\w(]+|[\w:<> ]+?)\s*\(")
COMPARES = {"operator==", "operator!=", "operator<=>", "operator<", "operator<<"}


@dataclasses.dataclass
class Declaration:
    kind: str  # "type" or "function"
    name: str
    owner: str  # the class, or nothing
    line: int  # counted from 0
    text: str
    parameters: list
    body: str  # where it is defined, too
    last_line: int = 0
    result: str = ""  # what stands before the name
    docstring: str = ""
    all_said: str = ""  # with what it refers to
    class_said: str = ""  # its class's docstring


def blanked(text):
    """The code alone, each character where it stood: comments, what stands in quotes and lines of the preprocessor are blank."""
    code = COMMENT.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), text)
    return re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", lambda m: re.sub(r"[^\n]", " ", m[0]), code, flags=re.MULTILINE)


def without_template(head):
    """A declaration without `template <...>` and `requires (...)` before it."""
    head = head.strip()
    while head.startswith("template"):
        depth, i = 0, head.find("<")
        while i < len(head):
            depth += (head[i] == "<") - (head[i] == ">")
            i += 1
            if depth == 0:
                break
        head = head[i:].strip()
    if head.startswith("requires"):
        depth, i = 0, head.find("(")
        while i < len(head):
            depth += (head[i] == "(") - (head[i] == ")")
            i += 1
            if depth == 0 and not re.match(r"\s*(&&|\|\|)", head[i:]):
                break
        head = head[i:].strip()
    return head


def function_in(head, end):
    """(name, parameters, what stands before the name) of the function that a declaration declares, or None."""
    text = head + end
    operator = OPERATOR.search(text)
    candidates = [operator] if operator else FUNCTION.finditer(text)
    for m in candidates:
        name = "operator" + re.sub(r"\s", "", m[1]) if operator else m[1]
        is_macro = name.isupper() and len(name) > 1
        is_within = text[:1] in ",)(" or re.search(r"(?<![=!<>])=(?!=)|[,)(]\s*$", text[:m.start()])
        if name in NO_FUNCTIONS or is_macro or is_within:
            continue
        parameters, rest = arguments(text, m.end() - 1)
        declares = re.match(r"\s*(const|noexcept|requires|;|\{|->|&|=\s*(delete|default)|:)", rest)
        if declares and all(re.search(r"\w[\s&*>]", p) for p in parameters):
            return name, parameters, text[:m.start()]
    return None


def matching(code, opening):
    depth = 0
    for i in range(opening, len(code)):
        depth += (code[i] == "{") - (code[i] == "}")
        if depth == 0:
            return i
    return len(code) - 1


def end_of_body(code, opening):
    """Where the body ends that opens at `opening`, or at the next brace where this one is an initialiser's."""
    closing = matching(code, opening)
    while re.compile(r"\s*[,{]").match(code, closing + 1):
        further = code.find("{", closing + 1)
        if further < 0 or ";" in code[closing + 1:further]:
            break
        closing = matching(code, further)
    return closing


def declarations(code):
    """What the public part of a text declares, `detail` left out; and definitions of members outside their class."""
    stack, begin, position = [], 0, 0
    while (m := STOP.search(code, position)) is not None:
        position = m.end()
        head, start = code[begin:m.start()], begin
        inside = stack[-1] if stack else {"kind": "namespace", "hidden": False, "name": ""}
        begin = position
        if m[0][-1] == ":":
            if inside["kind"] == "class":
                inside["hidden"] = inside["outer"] or not m[0].startswith("public")
            else:
                begin = start
            continue
        if m[0] == "{" and head.count("(") > head.count(")"):  # a default or an initialiser among parameters
            begin, position = start, matching(code, m.start()) + 1
            continue
        if m[0] == "}":
            if stack:
                stack.pop()
            continue
        line = code.count("\n", 0, start + len(head) - len(head.lstrip()))
        bare = without_template(head)
        closing = m.start()
        if m[0] == "{":
            if namespace := re.fullmatch(r"(?:inline\s+)?namespace\b([\w:\s]*)", bare):
                hidden = inside["hidden"] or "detail" in namespace[1].replace(" ", "::").split("::") or not namespace[1].strip()
                stack.append({"kind": "namespace", "hidden": hidden, "name": ""})
                continue
            if (found := TYPE.match(bare)) and not re.search(r"\)\s*(const|noexcept|\s)*$", bare):
                if not inside["hidden"] and not found[3]:
                    yield Declaration("type", found[2], inside["name"], line, head, [], "", code.count("\n", 0, m.start()))
                if found[1].startswith("enum"):
                    begin = position = matching(code, m.start()) + 1
                else:
                    outer = inside["hidden"] or found[3] is not None
                    stack.append({"kind": "class", "outer": outer, "name": found[2], "hidden": outer or found[1] == "class"})
                continue
            closing = end_of_body(code, m.start())
            begin = position = closing + 1
        if inside["hidden"] or bare.startswith(("using", "friend", "typedef", "static_assert", "return")):
            continue
        if found := function_in(bare, m[0] + ("};" if m[0] == "{" else "")):
            name, parameters, before = found
            owner = inside["name"]
            if qualified := re.search(r"(\w+)\s*::\s*$", before):
                owner, before = qualified[1], before[:qualified.start()]
            body = code[m.start():closing + 1] if m[0] == "{" else ""
            yield Declaration("function", name, owner, line, bare, parameters, body, code.count("\n", 0, closing), before)


def with_docstrings(text, found):
    """Gives each its docstring: the `///` lines right above it, or those of the function right above it; and what these refer to."""
    lines = text.split("\n")
    before = None
    for one in found:
        top = one.line
        while top > 0 and re.match(r"\s*// ?NOLINT", lines[top - 1]):
            top -= 1
        below = top
        while top > 0 and re.match(r"\s*///(?!<)", lines[top - 1]):
            top -= 1
        if top < below:
            one.docstring = " ".join(line.strip()[3:].strip() for line in lines[top:below])
        elif one.kind == "function" and before and before.kind == "function" and before.last_line == one.line - 1:
            one.docstring = before.docstring
        before = one
    classes = {}
    for i, one in enumerate(found):
        one.all_said = one.docstring
        one.class_said = classes.get(one.owner, "")
        if one.kind == "type":
            classes[one.name] = one.docstring
        if re.match(r"The same\b", one.docstring) or re.search(r"\bas above\b", one.docstring):
            earlier = [other for other in found[:i] if other.kind == "function" and other.docstring != one.docstring]
            one.all_said += " " + earlier[-1].all_said if earlier else ""
        for name in re.findall(r"\b[Oo]therwise as (\w+)", one.docstring):
            one.all_said += "".join(" " + (other.all_said or other.docstring) for other in found if other.name == name)
    return found


def exempt(one):
    if one.kind == "type":
        return False
    if re.search(r"=\s*(default|delete)\s*$", one.text) or one.name.startswith("~") or one.name in COMPARES:
        return True
    if one.name == one.owner:
        own = rf"(const\s+)?{one.owner}\s*&&?\s*\w*"
        return not one.parameters or (len(one.parameters) == 1 and re.fullmatch(own, one.parameters[0]) is not None)
    return False


def key(one):
    types = [re.sub(r"\s+", "", re.sub(r"=.*", "", p, flags=re.DOTALL)) for p in one.parameters]
    return one.owner, one.name, tuple(types)


def bodies_of(texts):
    """{(owner, name, parameters): bodies} and {(owner, name): bodies} of all definitions in texts."""
    exact, loose = {}, {}
    for text in texts:
        for one in declarations(blanked(text)):
            if one.kind == "function" and one.body:
                exact.setdefault(key(one), []).append(one.body)
                loose.setdefault(key(one)[:2], []).append(one.body)
    return exact, loose


def refuses(one, bodies):
    exact, loose = bodies
    own = [one.body] if one.body else exact.get(key(one)) or loose.get(key(one)[:2], [])
    return any(re.search(r"\bthrow\b(?!\s*;)|\b(require|validate)\w*\s*(<[^;()]*>)?\(", body) for body in own)


def lacks_units(one):
    named = re.compile(r"(\w+)\s*(=.*)?$", re.DOTALL)
    numbers = [p for p in one.parameters if NUMBERS.search(p)]
    gives = one.name != one.owner and NUMBERS.search(one.result)
    if not numbers and not gives or UNITS.search(one.all_said) or UNITS.search(one.class_said):
        return False
    names = [m[1] for p in numbers if (m := named.search(p))]
    return not (all(CARRIED.search(n) for n in names) and (not gives or CARRIED.search(one.name)))


def names_source(text):
    return SOURCE.search(NO_SOURCE.sub("", text)) is not None


def opening_comment(text):
    m = re.match(r"(?:\s*#pragma once)?\s*((?:[ \t]*//[^\n]*\n)+)", text)
    return m[1] if m else ""


def faults_of(name, text, bodies=({}, {})):
    """Lines that say what the header `name` (ROOM/...) lacks; `bodies` as bodies_of() gives them for the sources of its room."""
    room = name.split("/")[0]
    opening = opening_comment(text)
    for number, line in enumerate(text.split("\n"), 1):
        if "///<" in line:
            yield f"{name}:{number}: behind: a comment behind a member: put it above"
    for one in with_docstrings(text, list(declarations(blanked(text)))):
        if exempt(one):
            continue
        where = f"{name}:{one.line + 1}: "
        said = f"{one.owner + '::' if one.owner else ''}{one.name}{'()' if one.kind == 'function' else ''}"
        if not one.docstring:
            yield f"{where}meaning: {said} has no /// above it"
        if one.kind == "type":
            continue
        if lacks_units(one):
            yield f"{where}units: {said} names neither unit nor shape"
        if refuses(one, bodies):
            if not THROWS.search(one.all_said) and not (one.name == one.owner and THROWS.search(one.class_said)):
                yield f"{where}throws: {said} throws and doesn't say what"
            elif NEVER_THROWS.search(one.all_said):
                yield f"{where}throws: {said} throws and says that it doesn't"
        about_values = any(re.search(r"\bV\b|\b[A-Z]\w+|double", p) for p in [*one.parameters, one.result])
        if room in FORMULAS and not one.owner and about_values and not CONVERTS.search(one.name):
            if not names_source(one.all_said) and not names_source(opening):
                yield f"{where}source: {said} names no source and doesn't say that it is our own"


def main(root):
    include = root / "include" / "samelight"
    count, faults = 0, []
    for room in sorted(p for p in include.iterdir() if p.is_dir() and p.name != "tables"):
        sources = [*room.rglob("*.ipp"), *(root / "src" / room.name).rglob("*.cpp")]
        bodies = bodies_of(p.read_text(encoding="utf-8") for p in sources)
        for path in sorted(room.rglob("*.hpp")):
            text = path.read_text(encoding="utf-8")
            count += len(list(declarations(blanked(text))))
            faults += faults_of(str(path.relative_to(include)), text, bodies)
    for line in faults:
        print(line)
    print(f"{count} public names, {len(faults)} faults")
    return 1 if faults or count < FEWEST else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
