#!/usr/bin/env python3
"""Compiles one file twice: as it stands, which must work, and with MUST_FAIL defined, which must not.
Usage: check_twin.py COMPILER FLAGS_FILE TWIN.cpp

The twin's first line is `// must fail: REGEX`, a Python regular expression that the compiler's
complaint has to contain, so that the file does not pass by failing for another reason. The part that
must not compile stands between `#ifdef MUST_FAIL` and `#else` or `#endif`.
"""
import os
import pathlib
import re
import subprocess
import sys


def compile_once(compiler, flags_file, twin, *more):
    # Plain ASCII quotes in the messages, whatever the caller's language.
    done = subprocess.run(
        [compiler, "-std=c++20", "-fsyntax-only", f"@{flags_file}", *more, str(twin)],
        capture_output=True, text=True, env={**os.environ, "LC_ALL": "C"}, check=False)
    return done.returncode, done.stderr


def check(compiler, flags_file, twin):
    """What is wrong with the twin, or None."""
    text = pathlib.Path(twin).read_text(encoding="utf-8")
    header = re.match(r"// must fail: (\S.*)\n", text)
    if not header or not re.search(r"^#ifdef MUST_FAIL$", text, re.MULTILINE):
        return "wanted a first line `// must fail: REGEX` and a part under `#ifdef MUST_FAIL`"
    code, said = compile_once(compiler, flags_file, twin)
    if code != 0:
        return f"the twin that must compile does not:\n{said}"
    code, said = compile_once(compiler, flags_file, twin, "-DMUST_FAIL")
    if code == 0:
        return "compiles with MUST_FAIL, and must not"
    if not re.search(header[1].strip(), said):
        return f"fails as it must, but the complaint does not match `{header[1].strip()}`:\n{said}"
    return None


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    wrong = check(*sys.argv[1:])
    if wrong:
        sys.exit(f"{sys.argv[3]}: {wrong}")
    print(f"{sys.argv[3]}: compiles, and with MUST_FAIL fails for the reason given")
