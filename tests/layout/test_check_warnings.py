#!/usr/bin/env python3
"""check_warnings.py finds what it should find, and nothing else."""
import pathlib
import sys
import tempfile

from check_warnings import check

LIST = """
inline constexpr std::array<WarningKind, 2> white_warning_kinds{{
    // A comment with {"a", "b"}.
    {"too_dark", "observer:text distance_uv lines_nm[]"},
    {"tinted", "x y cause:red|blue?"},
}};
"""
DARK = 'w.push_back(Warning{"too_dark", {{"observer", o}, {"distance_uv", d()}, {"lines_nm", nm}}});\n'
TINTED = 'return Warning{tinted_code, {{"x", 0.5}, {"y", f({1, 2})}}};\nconstexpr const char* tinted_code = "tinted";\n'
CAUSE = 'w.facts.push_back(Fact{"cause", "red"});\n'
WHOLE = DARK + TINTED + CAUSE

# (list, source, a part of each fault)
CASES = [
    (LIST, WHOLE, []),
    (LIST, WHOLE.replace('Warning{"too', 'Warning dark{"too'), []),
    (LIST, WHOLE + 'Warning{"unknown"}', ["unknown stands in no"]),
    (LIST, WHOLE + "Warning{code, facts}", ["no constant"]),
    (LIST, WHOLE.replace('"observer"', '"who"'), ["with who", "lacks observer", "never made with observer"]),
    (LIST, WHOLE + 'Warning{"tinted", {{"x", 0.5}}}', ["tinted lacks y"]),
    (LIST, WHOLE + 'Warning{"tinted", facts}', []),
    (LIST, DARK + TINTED, ["tinted is never made with cause"]),
    (LIST, DARK + CAUSE, ["tinted is made nowhere", "never made with x", "never made with y"]),
    (LIST, WHOLE + '// Warning{"unknown"}\n', []),
    (LIST, WHOLE + 'a.warnings.push_back({"too_dark", {}});', ["without its type's name"]),
    (LIST, WHOLE + 'x.push_back({"a_part", {}});', []),
    (LIST, WHOLE + 'w.find<std::string>("message")', ["a message outside"]),
    (LIST, WHOLE + 'if (w.code == dark_code) {}', ["decided by a code"]),
    (LIST, WHOLE + 'if ("tinted" != flags.front().code) {}', ["decided by a code"]),
    (LIST, WHOLE + 'const std::string& code = found->code;', ["decided by a code"]),
    (LIST, WHOLE + 'json["code"] = w.code; if (code_point == 0x20) {}', []),
    (LIST, WHOLE + 'reason = "moving it would not " "help.";', ["a sentence outside"]),
    (LIST, WHOLE + 'throw Error(kind, f({1}), "a light that nobody sees", wanted + "one above (0)");', []),
    (LIST, WHOLE + 'return Error{kind, n ? "no light at (all): here" : ""}; say("to be seen by us");', ["to be seen by us"]),
    (LIST, WHOLE + '#error \\\n  "what this can not do"\nstatic_assert(n > 0, "there must be some of these");', []),
    (LIST, WHOLE + 'title = "three words only"; code = "not_a_single_sentence_here";', []),
    (LIST.replace("x y", "x Y_nm!"), WHOLE, ['written as "Y_nm!"', "with y", "lacks Y_nm!", "never made with Y_nm!"]),
    (LIST.replace('"tinted"', '"too_dark"'), DARK + CAUSE + 'Warning{"too_dark", {{"x", 1.0}, {"y", 2.0}}}',
     ["listed twice", "with observer", "with distance_uv", "with lines_nm", "lacks x", "lacks y"]),
]


def faults_of(kinds, source):
    with tempfile.TemporaryDirectory() as folder:
        room = pathlib.Path(folder) / "include" / "samelight" / "white"
        room.mkdir(parents=True)
        (room / "warning_kinds.hpp").write_text(kinds, encoding="utf-8")
        (room / "target.hpp").write_text(source, encoding="utf-8")
        (pathlib.Path(folder) / "src").mkdir()
        return check(pathlib.Path(folder))[0]


wrong = 0
for kinds, source, wanted in CASES:
    found = faults_of(kinds, source)
    if len(found) != len(wanted) or not all(any(part in fault for fault in found) for part in wanted):
        print(f"{source!r}: found {found}, wanted {wanted}", file=sys.stderr)
        wrong += 1
sys.exit(1 if wrong else 0)
