"""The copy in which the changes stand, all at once, and its build."""
import os
import pathlib
import re
import shutil
import subprocess

HERE = pathlib.Path(__file__).resolve().parent
FLAGS = "-O1 -DNDEBUG -w -Wno-narrowing -fmax-errors=0"


def files_of(root):
    """What the project consists of, built or not."""
    out = subprocess.run(["git", "-C", str(root), "ls-files", "-co", "--exclude-standard"], check=True, capture_output=True, text=True)
    return sorted(name for name in out.stdout.split("\n") if name and (root / name).is_file())


def write(path, text):
    """Writes only what is new, so that only that is built anew."""
    data = text if isinstance(text, bytes) else text.encode("utf-8")
    if path.is_file() and path.read_bytes() == data:
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return True


def woven(text, placed):
    """A source with changes in it. placed: (number, level, change), level "late" or "early" as mutant.hpp has them."""
    pieces = []
    for number, level, change in placed:
        # Lines keep their numbers.
        form = change.form.replace("SWITCH", f"mutant::{level}({number})").replace("\n", " ")
        pieces.append((change.start, change.end, form + "\n" * text.count("\n", change.start, change.end)))
        if change.declared:
            start, end, frame = change.declared
            # A value that is known only as the program starts; in a body one that needs no capture.
            before = text[:start].rstrip()
            word = {"namespace": "const", "type": "inline const"}.get(frame, "const" if before.endswith("static") else "static const")
            pieces.append((start, end, word))
    for start, end, new in sorted(pieces, reverse=True):
        text = text[:start] + new + text[end:]
    return '#include "mutant.hpp"\n#line 1\n' + text


class Tree:
    def __init__(self, root, folder):
        self.root, self.folder = root, folder
        self.tree, self.build = folder / "tree", folder / "build"

    def copy(self, placed):
        """placed: by path, the changes that stand there. Returns how many files are new."""
        names = files_of(self.root)
        count = 0
        for name in names:
            source = self.root / name
            if name in placed:
                count += write(self.tree / name, woven(source.read_text(encoding="utf-8"), placed[name]))
            elif not (self.tree / name).is_file() or source.stat().st_mtime_ns > (self.tree / name).stat().st_mtime_ns or \
                    source.stat().st_size != (self.tree / name).stat().st_size:
                count += write(self.tree / name, source.read_bytes())
                shutil.copymode(source, self.tree / name)
        for old in [path for path in self.tree.rglob("*") if path.is_file()]:
            name = str(old.relative_to(self.tree))
            if name not in names and not name.startswith("mutants/") and not name.endswith("mutants_reached.cpp"):
                old.unlink()
        write(self.tree / "mutants" / "mutant.hpp", (HERE / "mutant.hpp").read_text(encoding="utf-8"))
        for room in {name.split("/")[1] for name in names if name.startswith("tests/") and name.endswith("_test.cpp")}:
            write(self.tree / "tests" / room / "mutants_reached.cpp", (HERE / "listener.cpp").read_text(encoding="utf-8"))
        return count

    def configure(self):
        if (self.build / "build.ninja").is_file():
            return
        flags = f"-I{self.tree / 'mutants'}"
        linker = "-fuse-ld=lld" if shutil.which("ld.lld") else ""
        command = ["cmake", "-S", str(self.tree), "-B", str(self.build), "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                   f"-DCMAKE_CXX_FLAGS_RELEASE={FLAGS}", f"-DCMAKE_CXX_FLAGS={flags}", f"-DCMAKE_C_FLAGS={flags}",
                   f"-DCMAKE_EXE_LINKER_FLAGS={linker}", f"-DCMAKE_SHARED_LINKER_FLAGS={linker}", "-DCMAKE_CXX_COMPILER=g++",
                   "-DSAMELIGHT_BUILD_BENCHMARKS=OFF", "-DSAMELIGHT_QUICK_BUILD=ON"]
        if shutil.which("ccache"):
            command.append("-DCMAKE_CXX_COMPILER_LAUNCHER=ccache")
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)

    def make(self, targets, jobs, keep_going=True):
        """What the compiler says, and whether all was built."""
        command = ["ninja", "-C", str(self.build), f"-j{jobs}"] + (["-k", "0"] if keep_going else []) + targets
        done = subprocess.run(command, capture_output=True, text=True, errors="replace",
                              env={**os.environ, "CCACHE_BASEDIR": str(self.folder), "LC_ALL": "C"})
        (self.folder / "build.log").write_text(done.stdout, encoding="utf-8")
        return done.stdout, done.returncode == 0

    def program(self, name):
        return self.build / "bin" / "samelight" if name == "samelight_command" else self.build / "tests" / name


# What the compiler says where it was to run a function that asks which change is chosen.
CONSTANT = re.compile(r"non-.constexpr. function|constant expression|non-constant|not a constant")


def blamed(tree, log, placed):
    """The numbers of the changes that the compiler's errors lie in, each with whether it is only that the compiler was to run it; placed: number -> (path, first line, last line, declared line).

    An error is at the change itself, or the notes under it lead there (a template's, a constant's that no longer is one)."""
    at = {}
    for number, (path, first, last, _) in placed.items():
        for line in range(first, last + 1):
            at.setdefault((path, line), []).append(number)
    place = re.compile(rf"(?:{re.escape(str(tree))}/|)((?:include|src)/[^:\s]+):(\d+)[:,]")
    found, group, is_error, said = {}, [], False, ""

    def close():
        if not is_error:
            return
        direct = [n for kind, spot in group if kind == "error" for n in at.get(spot, [])]
        near = direct or [n for _, spot in group for n in at.get(spot, [])]
        # The compiler may name the end of a statement of several lines.
        near = near or [n for _, (path, line) in group for n in next((at[path, k] for k in range(line, line - 12, -1) if (path, k) in at), [])]
        for number in near:
            found[number] = found.get(number, True) and bool(CONSTANT.search(said))

    pending = []
    for line in log.split("\n"):
        match = place.search(line)
        if re.search(r": (fatal )?error: ", line):
            close()
            group, is_error, said = pending, True, line
            pending = []
            if match:
                group.append(("error", (match.group(1), int(match.group(2)) )))
        elif match and re.search(r"In instantiation of|required from|In file included|In (member )?function|recursively required|in .constexpr. expansion|In substitution", line):
            pending.append(("note", (match.group(1), int(match.group(2)))))
        elif match:
            group.append(("note", (match.group(1), int(match.group(2)))))
    close()
    return found
