#!/usr/bin/env python3
"""Gives the command everything that it doesn't expect: odd files in every place for a file, odd words behind every option.

Usage: odd_inputs.py COMMAND [--all | --nth N | PART]. Without more every third input that is made of a list is tried, and of each list all come by
somewhere. --nth: of those each so manieth, for a command that sanitizers make slow. PART: only inputs whose line contains it, which are then shown.

Of each input: the command ends by itself, with 0, 1 or 2, before a limit that is there for the machine's sake alone; where it fails there is
one line on standard error, or a line for each of several things that are wrong, in UTF-8, without control characters; with --json what is on
standard output is JSON, also where it fails, and lists as many errors as there are lines. Standard output holds nothing beside errors unless
the command is one that can answer without what is wrong. Built
with sanitizers it finds nothing that they report. The options are those of the command's own help, so that none is forgotten.
"""
import concurrent.futures
import json
import os
import re
import subprocess
import sys
import tempfile
import unicodedata

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import odd_files  # noqa: E402

SECONDS = 600          # of one run, on however busy a machine; only a run that hangs takes so long
FEWEST = 300           # inputs
LONGEST_LINE = 1300    # where, what and what was wanted: 300 characters each of somebody's text, and the command's own words
SANITIZER_EXIT = 99
LONG = 100000

# What is right about each command, so that one thing at a time is odd: it has to be answered.
RIGHT = {
    "white": ["crt", "--people", "16"],
    "metamerism": ["crt", "oled-rgb", "--people", "20"],
    "panel": ["crt"],
    "observer": ["cie1931-2deg"],
    "spectrum": ["display.csv"],
    "meter fit": ["read.csv", "--resamples", "10"],
    "meter model": ["cie1931-2deg", "crt"],
    "meter choose": ["crt", "--correction", "kept.csv", "--meter", "cie1964-10deg"],
    "meter choose --table": ["crt", "laser-rgb", "--meter", "cie1964-10deg"],
    "targets": ["--white", "0.308,0.319"],
    "check": ["patches.csv"],
    "adjust": ["patches.csv"],
    "gradient": ["--adjustment", "turned.csv", "--bits", "8"],
    "visit": ["hall:cinema", "--minutes", "90", "--warm-up", "warming.csv"],
    "compare": ["patches.csv", "patches-later.csv", "--months", "12"],
    "hdr": ["patches.csv"],
}

# Behind an option, or where a name is wanted.
WORDS = [b"", b"-1", b"0", b"1e9", b"1e999", b"nan", b"-inf", b"0x10", b"1e-320", b"1,5", b"20-70-90", b"x" * LONG,
         b"9" * LONG, b"\x1b[31mred", b"\xff\xfe", b"A=0.3,0.3", b"Z=nan,1", b"none.csv", b".", b"/dev/null", b"two\nlines",
         "\u202eback".encode(), b"crt@nan,nan", b"crt@9,9", b"crt@", b"@0.3,0.3", b"cie2006:-1:1e9", b"40:1e9", b"[a,b]", b"--json",
         b"-", b"red=none.csv", b"red=display.csv,green=display.csv,blue=display.csv", b"display.csv#1"]

# Where a file is wanted: no file, or none that can be read.
PLACES = [".", "/", "none.csv", "/dev/null", "/dev/full", "/proc/self/mem", "/proc/self/environ", "shut.csv", "loop.csv",
          "display.csv/", "display.csv/none", "x" * 300 + ".csv", "./" * 3000 + "display.csv"]

FILES_FOR = {
    "white": ["{}", "crt --reference {}", "crt --now {}", "crt --ages {}", "crt --panels-from {}", "--panels-from {}",
              "--panels-from {} --lines-of-json", "--red {} --green {} --blue {}", "red={},green=display.csv,blue=display.csv"],
    "metamerism": ["crt {}", "crt oled-rgb --deviations {}", "crt oled-rgb --reference {}"],
    "spectrum": ["{}", "{} --bandwidth 5", "{} --shift 0.3 --corrected -", "{} --lines mercury"],
    "meter fit": ["{}", "read.csv {}", "read.csv --panel {}"],
    "meter model": ["{} crt", "cie1931-2deg {}"],
    "meter choose": ["crt --correction {}", "{} --correction kept.csv", "crt --correction kept.csv --meter {}"],
    "targets": ["--white {}", "--patches {}", "--encoding {}", "crt --reference {}"],
    "check": ["{}", "patches.csv --before {}", "patches.csv --correction {}", "patches.csv --white {}"],
    "gradient": ["{}", "patches.csv --before {}", "--adjustment {} --bits 8"],
    "adjust": ["{}", "patches.csv --controls {}", "patches.csv --correction {}", "patches.csv --white {}"],
    "visit": ["hall --minutes 90 --warm-up {}", "hall lounge --minutes 90 --warm-up hall={}"],
    "compare": ["{} {}", "{} patches.csv", "patches.csv {} --months 12", "patches.csv patches-later.csv --correction {}",
                "patches.csv patches-later.csv --correction kept.csv --then-correction {}",
                "patches.csv patches-later.csv --then-spectra display.csv --now-spectra {}"],
    "hdr": ["{}", "patches.csv --correction {}", "patches.csv --white {}"],
}
# These answer without what can't be read, where something is left.
IN_PART = ("white", "metamerism", "spectrum", "meter choose", "meter fit")
FEW_PEOPLE = {"white": "--people 16", "metamerism": "--people 20", "meter fit": "--resamples 10"}


def options_of(command, call):
    text = call(command.split() + ["--help"]).stdout.decode()
    return sorted(set(re.findall(r"^ +(?:-h,)?(--[a-z-]+)", text, re.M)) - {"--help"})


def inputs(call, files, every):
    """Lists of arguments, and bytes for standard input; of odd words and files every so manieth, from another one on each time."""
    turn = 0
    for command, right in RIGHT.items():
        words = command.split()
        yield words + right, b""
        yield words + right + ["--json"], b""
        for option in options_of(command.split(" --")[0], call):
            turn += 1
            for word in WORDS[turn % every::every]:
                yield words + right + [option, word], b""
            yield words + right + [option], b""
            yield words + right + [option + "="], b""
            yield words + right + [option, "1", option, "2"], b""
            yield words + right + [option, "1", "--json"], b""
            yield words + right + [option + "=-1", "--json"], b""
        for word in WORDS:
            yield words + [word] + right[1:], b""
            yield words + right + [word, "--json"], b""
        yield words, b""
        yield words + ["--nothing"], b""
        yield words + right[:1] * 200 + right[1:], b""
    for command, places in FILES_FOR.items():
        more = FEW_PEOPLE.get(command, "").split()
        for place in places:
            turn += 1
            for name in (files + PLACES)[turn % every::every]:
                line = command.split() + [w.replace("{}", name) for w in place.split()] + more
                # Every other one as programs ask: both ways of failing are met everywhere.
                yield line + (["--json"] if hash_of(line) % 2 and "--lines-of-json" not in line and "-" not in line else []), b""
    for data in odd_files.all_files().values():
        yield ["white", "--panels-from", "-", "--lines-of-json", "--people", "16"], data
    for words in ([], ["--version", "--json"], ["--", "--json"], ["white", "--", "--json"], ["nobody"], ["meter"], ["meter", "nobody"],
                  ["white", "-x"], ["-"], ["--"], [b"\xff"], [b"x" * LONG], ["white"] * 1000):
        yield list(words), b""


def hash_of(line):
    return sum(len(w) * (i + 1) for i, w in enumerate(line)) + len(line[-1])


def faults(args, said):
    args = [os.fsdecode(a) for a in args]
    out, err, code = said.stdout, said.stderr, said.returncode
    if code not in (0, 1, 2):
        yield f"ends with {code}"
    if b"Sanitizer" in err or b"runtime error" in err:
        yield "a sanitizer's report"
    try:
        text = err.decode("utf-8")
    except UnicodeDecodeError:
        yield "standard error isn't UTF-8"
        return
    # A soft hyphen and the joiners of letters are part of words; other marks without a shape hide what is written.
    steering = [c for c in text if c not in "\n\u00ad\u200c\u200d" and unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp")]
    if steering:
        yield f"standard error holds {steering[0]!r}"
    several = "--lines-of-json" in args
    in_part = code == 1 and " ".join(args[:2]).startswith(IN_PART)
    if code != 0:
        lines = text.splitlines()
        if not lines or not text.endswith("\n") or any(not line.startswith("samelight: ") for line in lines):
            yield "standard error isn't lines of the command's"
        if len(lines) > 1 and not several and not in_part:
            yield "standard error isn't one line"
        if any(len(line) > LONGEST_LINE for line in lines):
            yield f"an error of {max(len(line) for line in lines)} characters"
    asked = "--json" in args[:args.index("--")] if "--" in args else "--json" in args
    if asked or several:
        try:
            answers = [json.loads(line) for line in out.decode("utf-8").splitlines()] if several else [json.loads(out)]
            if code != 0 and several and not any("error" in answer for answer in answers):
                yield "no error in JSON"
            if code != 0 and not several and len(answers[0]["errors"]) != text.count("\n"):
                yield "JSON doesn't list each error once"
        except (ValueError, UnicodeDecodeError, KeyError) as error:
            yield f"standard output isn't JSON: {error}"
    elif code != 0 and out and not in_part:
        yield "an answer as well as an error"


def write_files(folder):
    files = odd_files.all_files()
    for name, data in files.items():
        with open(os.path.join(folder, name + ".csv"), "wb") as file:
            file.write(data)
    with open(os.path.join(folder, "shut.csv"), "wb") as file:
        file.write(files["display"])
    os.chmod(os.path.join(folder, "shut.csv"), 0)
    os.symlink("loop.csv", os.path.join(folder, "loop.csv"))
    return [name + ".csv" for name in files]


def main():
    command = os.path.abspath(sys.argv[1])
    part = sys.argv[2] if len(sys.argv) > 2 else None
    nth = int(sys.argv[3]) if part == "--nth" else 1
    chosen = part if part not in ("--all", "--nth") else None
    environment = dict(os.environ, ASAN_OPTIONS=f"exitcode={SANITIZER_EXIT}:detect_leaks=0",
                       UBSAN_OPTIONS=f"exitcode={SANITIZER_EXIT}:print_stacktrace=1", LC_ALL="C")

    with tempfile.TemporaryDirectory(prefix="samelight-odd-") as folder:
        def call(args, data=b""):
            return subprocess.run([command, *args], input=data, capture_output=True, cwd=folder, env=environment, check=False,
                                  timeout=SECONDS)

        def judged(case):
            args, data = case
            try:
                return args, list(faults(args, call(args, data)))
            except OSError as error:  # more than the system passes on
                return args, [] if error.errno == 7 else [str(error)]
            except subprocess.TimeoutExpired:
                return args, ["takes too long"]

        files = write_files(folder)
        cases = list(inputs(call, files, 3 if part in (None, "--nth") else 1))[::nth]
        if chosen:
            cases = [c for c in cases if chosen in shown(c[0])]
        elif len(cases) < FEWEST:
            sys.exit(f"only {len(cases)} inputs")
        bad = 0
        with concurrent.futures.ThreadPoolExecutor(max_workers=os.cpu_count()) as pool:
            for args, found in pool.map(judged, cases):
                if chosen:
                    said = call(args)
                    print(shown(args), said.returncode, said.stderr.decode("utf-8", "replace")[:500].rstrip())
                for fault in found:
                    bad += 1
                    print(f"{shown(args)}: {fault}")
        for command_name, right in RIGHT.items():
            if not chosen and call(command_name.split() + right).returncode != 0:
                bad += 1
                print(f"{command_name}: what is right is refused, so nothing else about it says anything")
        print(f"{len(cases)} inputs, {bad} faults")
        sys.exit(1 if bad else 0)


def shown(args):
    return " ".join(ascii(a.decode("utf-8", "backslashreplace") if isinstance(a, bytes) else a)[:80] for a in args)[:300]


if __name__ == "__main__":
    main()
