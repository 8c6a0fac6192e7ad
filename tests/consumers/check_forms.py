#!/usr/bin/env python3
"""Checks what the two forms of samelight, headers alone and a compiled library, promise to the programs that use them.
Usage: check_forms.py CASE --compiler C --archive libsamelight.a --root ROOT --work FOLDER [--system FOLDER ...]
       [--xsimd] [--write] [--bodies]

--system: folders of the headers that samelight needs; --xsimd: they contain xsimd. --write, with the case exports, writes
exports.txt anew; --bodies, with the case strict, looks at the bodies, too. Exit code 77: this machine or compiler can't show it.

  both_forms           one program with the headers alone in one source and the compiled library in others
  unlike_processors    sources for unlike processors, with and without xsimd, have no function in common that depends on it
  fast_math            -ffast-math and its parts are refused, in words
  strict               the headers of the compiled form under a user's strict warnings, C++20 and C++23, each compiler there is
  in_a_shared_library  the compiled library inside a user's shared library
  exports              what the library shows is what SAMELIGHT_API says, and is what exports.txt lists
  size                 what a small program weighs
  under_valgrind       a user's program runs under valgrind, whose long double has double's range, without a complaint
"""
import argparse
import ctypes
import itertools
import os
import pathlib
import platform
import re
import shutil
import subprocess
import sys

from form_programs import BATCHES, BOTH_FORMS_MAIN, MORE, QUANTILES, SHARED, SHARED_MAIN, SIZE, TARGET

SKIP = 77
HERE = pathlib.Path(__file__).resolve().parent
LARGEST_PROGRAM = 300_000

class Wrong(Exception):
    """What a case found wrong, in words."""


class Skipped(Exception):
    """Why a case can't be looked at here."""


def run(*command, may_fail=False, cwd=None):
    # Plain ASCII quotes in the messages, whatever the caller's language.
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, cwd=cwd, check=False,
                          env={**os.environ, "LC_ALL": "C", "CCACHE_DISABLE": "1"})
    if done.returncode != 0 and not may_fail:
        raise Wrong(f"{' '.join(map(str, command))}\nended with {done.returncode}:\n{(done.stdout + done.stderr)[-8000:]}")
    return done


class Given:
    """The compiler and the folders, and how to use them."""

    def __init__(self, given):
        self.compiler, self.archive, self.root, self.work = given.compiler, given.archive, given.root, given.work
        self.xsimd, self.write, self.bodies, self.system = given.xsimd, given.write, given.bodies, given.system
        shutil.rmtree(self.work, ignore_errors=True)
        self.work.mkdir(parents=True)

    def folders(self, compiler=None):
        """-I and -isystem. The compiler's own folders, named once more, would stand in another order."""
        said = run(compiler or self.compiler, "-x", "c++", "-E", "-v", os.devnull).stderr
        own = {os.path.realpath(line.strip()) for line in said.splitlines() if line.startswith(" /")}
        own.add(os.path.realpath(self.root / "include"))  # whose warnings are to be seen
        flags = [f"-I{self.root / 'include'}"]
        for folder in self.system:
            if os.path.realpath(folder) not in own:
                flags += ["-isystem", folder]
        return flags

    def form(self, compiled, xsimd=None):
        xsimd = self.xsimd if xsimd is None else xsimd
        return [*(["-DSAMELIGHT_COMPILED=1"] if compiled else []), f"-DSAMELIGHT_HAS_XSIMD={int(xsimd)}"]

    def source(self, name, text):
        path = self.work / f"{name}.cpp"
        path.write_text(text.lstrip("\n"), encoding="utf-8")
        return path

    def object(self, name, text, *flags, standard="c++20"):
        source, path = self.source(name, text), self.work / f"{name}.o"
        run(self.compiler, f"-std={standard}", *self.folders(), *flags, "-c", source, "-o", path)
        return path

    def link(self, name, *parts):
        path = self.work / name
        run(self.compiler, *parts, "-o", path)
        return path


def symbols(path, *flags):
    """[(kind, name)] of what an object or library defines, demangled."""
    listed = run("nm", "-C", "--defined-only", *flags, path).stdout
    return [(kind, name) for kind, name in re.findall(r"^[0-9a-f]* *([A-Za-z]) (.*)$", listed, re.MULTILINE)]


def whose(name):
    """The qualified name that a demangled symbol begins with: no return type, arguments, template arguments."""
    depth, start, end = 0, 0, len(name)
    name = re.sub(r"\[abi:\w+\]", "", name)
    name = re.sub(r"^(vtable for|typeinfo for|typeinfo name for|guard variable for|VTT for|construction vtable for) ", "", name)
    operator = re.search(r"\boperator\s*(\(\)|<=>|<<=?|>>=?|->\*?|[-+*/%^&|~!=<>]=?|&&|\|\||\[\])", name)
    i = 0
    while i < len(name):
        if operator and i == operator.start():
            i = operator.end()
            continue
        letter = name[i]
        if letter == "(" and name.startswith("(anonymous namespace)", i):
            i += len("(anonymous namespace)")
            continue
        if letter == "(" and depth == 0:
            end = i
            break
        depth += letter in "<([{"
        depth -= letter in ">)]}"
        if letter == " " and depth == 0:
            start = i + 1
        i += 1
    qualified, depth, plain = name[start:end], 0, ""
    for letter in qualified if not operator else "":
        depth += letter == "<"
        plain += letter if depth == 0 else ""
        depth -= letter == ">"
    return plain or qualified


def of_samelight(name):
    """But the tables: constants, the same whoever includes them."""
    return whose(name).startswith("samelight::") and not whose(name).startswith("samelight::tables::")


def both_forms(given):
    """Both in one program: no symbol twice or nowhere, and the same digits."""
    parts = [given.object("by_headers", TARGET.replace("NAME", "target_by_headers"), "-O1", *given.form(False)),
             given.object("by_library", TARGET.replace("NAME", "target_by_library"), "-O1", *given.form(True)),
             given.object("more", MORE, "-O1", *given.form(True)),
             given.object("main", BOTH_FORMS_MAIN)]
    program = given.link("both_forms", *parts, given.archive)
    done = run(program, may_fail=True)
    if done.returncode != 0:
        raise Wrong(f"the two forms differ:\n{done.stdout}")
    shared = {name for _, name in symbols(parts[0], "-g") if of_samelight(name)} & \
             {name for _, name in symbols(given.archive, "-g")}
    if shared:
        raise Wrong("the headers alone and the library both define\n  " + "\n  ".join(sorted(shared)))
    print(done.stdout, "no symbol of samelight in both", sep="")


def unlike_processors(given):
    """Which function the linker keeps must not decide whether a program runs."""
    if platform.machine().lower() not in ("x86_64", "amd64"):
        raise Skipped("not an x86-64 processor")
    runs = "avx2" in pathlib.Path("/proc/cpuinfo").read_text(encoding="utf-8").split()
    ways = [(march, xsimd) for march in ("x86-64", "x86-64-v3") for xsimd in ((False, True) if given.xsimd else (False,))]
    wrong = []
    for compiled in (False, True):
        form = "compiled" if compiled else "headers"
        objects = {}
        for march, xsimd in ways:
            way = f"{march}{'_xsimd' if xsimd else ''}"
            objects[way] = given.object(f"{form}_{way}", BATCHES.replace("NAME", f"way{len(objects)}"), "-O1", f"-march={march}",
                                        *given.form(compiled, xsimd))
        defined = {way: {name for kind, name in symbols(path) if kind in "TWVuBDR" and of_samelight(name)}
                   for way, path in objects.items()}
        if not all(any("lab_from_xyz" in name for name in names) for names in defined.values()):
            raise Wrong(f"{form}: found no lab_from_xyz among the symbols, so nothing is compared")
        for one, other in itertools.combinations(objects, 2):
            both = defined[one] & defined[other]
            # The compiled form has one Error and one Lab for all; what may differ there is what works through many values.
            apart = {name for name in both if of_a_batch(name)} if compiled else both
            print(f"{form}, {one} and {other}: {len(both)} symbols of samelight in both, {len(apart)} that must not be")
            if apart:
                wrong.append(f"{form}, {one} and {other} both define\n  " + "\n  ".join(sorted(apart)[:20]))
        main = given.object(f"{form}_main", "".join(f"bool way{i}();\n" for i in range(len(objects))) + "int main() { return " +
                            " + ".join(f"(way{i}() ? 0 : {1 << i})" for i in range(len(objects))) + "; }\n")
        for order in (list(objects.values()), list(objects.values())[::-1]):
            program = given.link(form, main, *order, *([given.archive] if compiled else []))
            code = run(program, may_fail=True).returncode if runs else 0
            if code != 0:
                wrong.append(f"{form}: the program of all ended with {code}")
        print(f"{form}: all in one program, linked in two orders{'' if not runs else ', run'}")
    if wrong:
        raise Wrong("\n".join(wrong))


def of_a_batch(name):
    """A function of columns or spans; but require_length only compares two counts."""
    return re.search(r"\((.*(Columns3<|std::span<|xsimd::batch<))", name) and not whose(name).endswith("::require_length")


def compilers_here(given):
    """The build's own, and the other kind where there is one."""
    compilers = [given.compiler]
    for other in ("clang++", "g++"):
        found = shutil.which(other)
        if found and ("clang" in other) != ("clang" in run(given.compiler, "--version").stdout):
            compilers.append(found)
    return compilers


def fast_math(given):
    """Refused in the words of form.hpp, and only then, by each compiler there is."""
    form = next((given.root / "include" / "samelight").rglob("form.hpp")).read_text(encoding="utf-8")
    fast = re.search(r'"(samelight: -ffast-math[^"]*)"', form)[1]
    unsafe = re.search(r'"(samelight: -fassociative-math[^"]*)"', form)[1]
    source = given.source("fast_math", '#include "samelight/numeric/error.hpp"\nint main() {}\n')
    for compiler in compilers_here(given):
        refused = [(fast, ["-ffast-math"]), (fast, ["-O2", "-ffinite-math-only"]), (fast, ["-Ofast"])]
        # clang++ defines nothing by which a header could tell.
        if "clang" not in run(compiler, "--version").stdout:
            refused += [(unsafe, ["-O2", "-funsafe-math-optimizations"]),
                        (unsafe, ["-fassociative-math", "-fno-signed-zeros", "-fno-trapping-math"])]
        for message, flags in refused:
            for compiled in (False, True):
                done = run(compiler, "-std=c++20", *given.folders(compiler), *given.form(compiled), *flags, "-fsyntax-only", source,
                           may_fail=True)
                if done.returncode == 0 or message not in done.stderr:
                    raise Wrong(f"{compiler} {' '.join(flags)}: wanted to be refused with `{message}`, ended with {done.returncode}:\n"
                                f"{done.stderr[:2000]}")
                print(f"{compiler} {' '.join(flags)}, {'compiled' if compiled else 'headers alone'}: refused")
        for flags in ([], ["-O2"], ["-O3", "-fno-math-errno"], ["-ffast-math", "-fno-fast-math"]):
            run(compiler, "-std=c++20", *given.folders(compiler), *given.form(True), *flags, "-fsyntax-only", source)
            print(f"{compiler} {' '.join(flags) or 'no flags'}: accepted")


def strict(given):
    """A user's warnings are errors: all headers in one file, compiled, and the bodies with them (but io's and report's, which are compiled always)."""
    include = given.root / "include"
    every = {path for path in (include / "samelight").rglob("*.hpp") if "impl" not in path.relative_to(include).parts}
    core = {path for path in every if not {"io", "report", "io.hpp", "report.hpp"} & set(path.relative_to(include).parts)}

    def source_of(name, paths):
        headers = sorted(path.relative_to(include).as_posix() for path in paths)
        return given.source(name, "".join(f'#include "{header}"\n' for header in headers) + "int main() {}\n"), len(headers)

    sources = {True: source_of("strict", every), False: source_of("strict_bodies", core)}
    warnings = "-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -fvisibility=hidden -fno-rtti".split()
    wrong = []
    for compiler in compilers_here(given):
        # Bodies take half a minute each; headers_together compiles them, and --bodies has them looked at here, too.
        bodies = [("c++20", False), ("c++2b", False)] if given.bodies else []
        for standard, compiled in [("c++20", True), ("c++2b", True), *bodies]:
            source, count = sources[compiled]
            done = run(compiler, f"-std={standard}", *given.folders(compiler), *given.form(compiled), *warnings, "-fsyntax-only",
                       source, may_fail=True)
            print(f"{compiler} -std={standard}, {'compiled' if compiled else 'with bodies'}: {count} headers, "
                  f"{len(re.findall('error:', done.stderr))} complaints")
            if done.returncode != 0:
                wrong.append(f"{compiler} -std={standard}:\n{done.stderr[:8000]}")
    if wrong:
        raise Wrong("\n".join(wrong))


def in_a_shared_library(given):
    """Links, loads, works; an Error is caught inside it, and by a program that has the library as well."""
    flags = ["-O1", "-fPIC", "-fvisibility=hidden", "-fno-rtti", *given.form(True)]
    library = given.link("libuser.so", "-shared", "-Wl,-z,defs",
                         given.object("shared", SHARED, *flags),
                         given.object("shared_target", TARGET.replace("NAME", "target_by_library"), *flags), given.archive)
    user = ctypes.CDLL(str(library))
    text = ctypes.create_string_buffer(100)
    user.shared_target(text, 100)
    x, y, difference = map(float, text.value.decode().split())
    if not (0.30 < x < 0.32 and 0.31 < y < 0.33 and abs(difference - 2.0425) < 5e-5):
        raise Wrong(f"the shared library's target and difference: {text.value.decode()}")
    print("in it:", text.value.decode())
    how = {0: "caught", 1: "caught with another text", 2: "caught, but not as samelight::Error", 3: "not thrown"}
    main = given.object("shared_main", SHARED_MAIN, "-O1", "-fvisibility=hidden", *given.form(True))
    program = given.link("shared_main", main, library, given.archive, f"-Wl,-rpath,{given.work}")
    ends = [("an Error of the library's", user.shared_error()), ("an Error of the user's", user.shared_own_error()),
            ("an Error thrown out of it, in the program", run(program, may_fail=True).returncode)]
    for what, code in ends:
        print(f"{what}: {how.get(code, f'ended with {code}')}")
    if any(code for _, code in ends):
        raise Wrong("an Error got lost")


def announced(root):
    """Names behind SAMELIGHT_API in the headers: (functions, classes)."""
    functions, classes = set(), set()
    for path in (root / "include" / "samelight").rglob("*.hpp"):
        text = re.sub(r"//[^\n]*", "", path.read_text(encoding="utf-8"))
        for declared in re.finditer(r"\b(class|struct)\s+SAMELIGHT_API\s+(\w+)|\bSAMELIGHT_API\b([^;{(]*)\(", text):
            if declared[2]:
                classes.add(declared[2])
            else:
                name = re.search(r"(operator\s*\S+|\w+)\s*$", declared[3])
                if name:
                    functions.add(name[1])
    return functions, classes


def exports(given):
    """What a shared library shows of it."""
    library = given.link("libwhole.so", "-shared", "-Wl,--whole-archive", given.archive, "-Wl,--no-whole-archive")
    shown = [(kind, name) for kind, name in symbols(library, "-D") if "samelight::" in whose(name)]
    functions, classes = announced(given.root)
    unannounced, listed = [], set()
    for kind, name in shown:
        parts = re.sub(r"::compiled::", "::", whose(name)).split("::")
        if kind in "WVu":  # inline, or a vtable or typeinfo without a source of its own
            continue
        if kind == "T":
            listed.add("::".join(parts))
        if not (parts[-1] in functions or set(parts) & classes):
            unannounced.append(f"{kind} {name}")
    print(f"{len(shown)} symbols shown, {len(listed)} functions by name, "
          f"{sum(kind in 'WVu' for kind, _ in shown)} inline or weak; in {library.stat().st_size} bytes")
    if unannounced:
        raise Wrong("shown without SAMELIGHT_API:\n  " + "\n  ".join(sorted(unannounced)))
    file = HERE / "exports.txt"
    lines = sorted(listed)
    if given.write:
        file.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
        print(f"{file}: written")
        return
    wanted = file.read_text(encoding="utf-8").splitlines()
    gone, new = sorted(set(wanted) - set(lines)), sorted(set(lines) - set(wanted))
    if gone or new:
        raise Wrong("exports.txt (renewed with --write) says otherwise:\n" +
                    "".join(f"  gone: {line}\n" for line in gone) + "".join(f"  new: {line}\n" for line in new))


def no_unused_tables(form, program):
    """The 35 kB of surfaces belong only in what shows surfaces; header-only as in the library, without a switch."""
    tables = [line for line in run("nm", "-C", program).stdout.splitlines() if "tables::" in line]
    unused = [line for line in tables if "reflectances::" in line]
    if not tables or unused:
        raise Wrong(f"{form}: " + ("no symbol of a table: nothing was looked at" if not tables else
                                   f"holds a table that it doesn't use: {unused[0]}"))


def size(given):
    """A program that uses little must weigh little, and hold no table that it doesn't use."""
    header_only = given.object("size_header_only", SIZE, "-O1", "-ffunction-sections", "-fdata-sections", *given.form(False))
    no_unused_tables("header-only", given.link("size_header_only", header_only, "-Wl,--gc-sections"))
    main = given.object("size", SIZE, "-O2", "-ffunction-sections", "-fdata-sections", *given.form(True))
    program = given.link("size", main, given.archive, "-Wl,--gc-sections")
    no_unused_tables("compiled", program)
    stripped = given.work / "size.stripped"
    run("strip", "-o", stripped, program)
    weight = stripped.stat().st_size
    print(run(stripped).stdout, f"{weight} bytes, stripped; at most {LARGEST_PROGRAM}", sep="")
    if weight > LARGEST_PROGRAM:
        largest = run("nm", "-C", "-S", "--size-sort", "--reverse-sort", program).stdout.splitlines()
        heavy = [f"{int(line.split()[1], 16):8d} {' '.join(line.split()[2:])[:140]}" for line in largest[:30]]
        together = sum(int(line.split()[1], 16) for line in largest)
        whole = "samelight::compiled::judge_viewer_group"
        hint = (f"\nit contains {whole}(), which it doesn't call: the library's functions have no sections of their own "
                "(wanted -ffunction-sections -fdata-sections)") if any(whole in line for line in largest) else ""
        raise Wrong(f"{weight} bytes ({together} in {len(largest)} symbols), the largest:\n" + "\n".join(heavy) + hint)


def under_valgrind(given):
    """What Boost does before main() must end no program there; and nothing is read that wasn't written."""
    if not shutil.which("valgrind"):
        raise Skipped("no valgrind")
    program = given.link("quantiles", given.object("quantiles", QUANTILES, "-O1", *given.form(False)))
    plain = run(program).stdout
    watched = run("valgrind", "--quiet", "--error-exitcode=3", program, may_fail=True)
    if watched.returncode != 0:
        raise Wrong(f"ended with {watched.returncode}:\n{watched.stderr[:2000]}")
    # Abramowitz & Stegun 1964, tables 26.5, 26.10 and 26.8 (from memory): 1.96, 2.228, 18.307.
    if plain != "1.960 2.228 18.307\n" or watched.stdout != plain:
        raise Wrong(f"{plain}under valgrind {watched.stdout}")
    print(watched.stdout, end="")


CASES = {case.__name__: case for case in (both_forms, unlike_processors, fast_math, strict, in_a_shared_library, exports, size, under_valgrind)}


def main():
    wanted = argparse.ArgumentParser(usage=__doc__)
    wanted.add_argument("case", choices=CASES)
    wanted.add_argument("--compiler", required=True)
    for option in ("--archive", "--root", "--work"):
        wanted.add_argument(option, required=True, type=lambda text: pathlib.Path(text).resolve())
    wanted.add_argument("--system", action="append", default=[])
    wanted.add_argument("--xsimd", action="store_true")
    wanted.add_argument("--write", action="store_true")
    wanted.add_argument("--bodies", action="store_true")
    given = wanted.parse_args()
    try:
        CASES[given.case](Given(given))
    except Skipped as why:
        print(f"skipped: {why}")
        return SKIP
    except Wrong as wrong:
        print(f"{given.case}: {wrong}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
