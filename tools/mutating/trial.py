"""Which tests reach a change, and whether they notice it."""
import os
import pathlib
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time

# A change may make a program ask for all memory that there is.
MEMORY = 4 << 30
# Seconds of a room's tests up to which all are run on a change that those which reach it don't notice.
SHORT = 20.0


def limited():
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    os.setsid()


def run(command, seconds, environment, limit=limited):
    """"passed", "failed", "crashed" or "timed out", and all that it said. In a folder of its own, with what it starts."""
    with tempfile.TemporaryDirectory(prefix="mutate_") as folder:
        out = pathlib.Path(folder) / "out"
        with out.open("w") as file:
            child = subprocess.Popen(command, stdout=file, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL, cwd=folder, preexec_fn=limit,
                                     env={**os.environ, "TMPDIR": folder, **environment})
            try:
                child.wait(seconds)
                verdict = "passed" if child.returncode == 0 else "crashed" if child.returncode < 0 or child.returncode > 1 else "failed"
            except subprocess.TimeoutExpired:
                verdict = "timed out"
            # Programs that the test started, too.
            try:
                os.killpg(child.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
            child.wait()
        return verdict, out.read_text(encoding="utf-8", errors="replace")


class Reach:
    """What tests reached without a change: seconds of each, and those that reach each change. How they run: Program and scripts.Scripts."""

    def __init__(self, program, kept):
        self.program, self.seconds, self.tests, self.by_change, self.broken = program, {}, [], {}, []
        if not kept.is_file() or kept.stat().st_mtime < program.stat().st_mtime:
            kept.unlink(missing_ok=True)
            fresh = kept.with_suffix(".new")
            fresh.unlink(missing_ok=True)
            self.record(fresh)
            fresh.rename(kept)
        everywhere, suites = set(), {}
        for line in kept.read_text(encoding="utf-8").split("\n"):
            if not line:
                continue
            name, outcome, took, ids = line.split("\t")
            ids = {int(n) for n in ids.split()}
            if name == "*":
                everywhere |= ids
            elif name.endswith(".*"):
                suites.setdefault(name[:-2], set()).update(ids)
            elif outcome == "passed":
                self.tests.append(name)
                self.seconds[name] = float(took)
                for number in ids:
                    self.by_change.setdefault(number, set()).add(name)
            elif outcome == "failed":
                self.broken.append(name)
        for number in everywhere:
            self.by_change.setdefault(number, set()).update(self.tests)
        for suite, ids in suites.items():
            for number in ids:
                self.by_change.setdefault(number, set()).update(t for t in self.tests if t.startswith(suite + "."))

    def record(self, path):
        """Runs all without a change and writes to path, a test a line: name, outcome, seconds and the changes reached, with tabs between."""
        raise NotImplementedError

    def judged(self, number, seconds, tests):
        """What the tests say of a change: a verdict as run() has them, and which of them failed."""
        raise NotImplementedError

    def once(self, number):
        """Of a constant that is worked out once and kept only the first test that reaches it is known: any may be the one."""
        if number in self.by_change:
            self.by_change[number] = set(self.tests)

    def tests_of(self, number):
        """Those that reach the change, the fastest first."""
        return sorted(self.by_change.get(number, ()), key=lambda name: self.seconds[name])

    def portions(self, number, longest, first=1.0):
        """The same in portions, each of several times as long as the one before, without tests of more than `longest` seconds."""
        portion, total, limit = [], 0.0, first
        for name in self.tests_of(number):
            if self.seconds[name] > longest:
                break
            if portion and total + self.seconds[name] > limit:
                yield portion, total
                portion, total, limit = [], 0.0, limit * 4
            portion.append(name)
            total += self.seconds[name]
        if portion:
            yield portion, total


class Program(Reach):
    """A program of GoogleTest, which knows of its tests itself (listener.cpp). left_out: names of tests, as its filter has them."""

    def __init__(self, program, kept, left_out=""):
        self.left_out = left_out
        super().__init__(program, kept)

    def record(self, path, seconds=1800):
        with tempfile.TemporaryDirectory(prefix="mutate_") as folder:
            left = pathlib.Path(folder) / "reached"
            env = {**os.environ, "SAMELIGHT_MUTANT": "-1", "SAMELIGHT_MUTANT_RECORD": str(path), "TMPDIR": folder,
                   "SAMELIGHT_MUTANT_REACHED": str(left)}
            subprocess.run([str(self.program), "--gtest_brief=1", f"--gtest_filter=-{self.left_out}"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=folder, env=env,
                           timeout=seconds, check=False)
            # A shared library with changes of its own says so as it is closed, and not by which test.
            if left.is_file():
                with path.open("a", encoding="utf-8") as file:
                    file.write("*\tpassed\t0\t" + " ".join(left.read_text(encoding="utf-8").split()) + "\n")

    def judged(self, number, seconds, tests):
        with tempfile.NamedTemporaryFile("w", prefix="mutate_", encoding="utf-8") as flags:
            flags.write("--gtest_filter=" + ":".join(tests) + "\n")
            flags.flush()
            command = [str(self.program), "--gtest_fail_fast", "--gtest_brief=1", "--gtest_color=no", f"--gtest_flagfile={flags.name}"]
            verdict, said = run(command, seconds, {"SAMELIGHT_MUTANT": str(number)})
        failed = [line for line in said.split("\n") if line.startswith("[  FAILED  ]")]
        return verdict, failed[0][13:] if failed else said[-300:].strip() if verdict == "crashed" else ""


def judge(reaches, number, longest):
    """("killed", by which test), ("timed out", ...) or ("survived", why) over the room's test programs, and the seconds it took."""
    start = time.monotonic()
    reached = any(reach.tests_of(number) for reach in reaches)
    for reach in reaches:
        for tests, seconds in reach.portions(number, longest):
            verdict, said = reach.judged(number, 5.0 * seconds + 5.0, tests)
            if verdict != "passed":
                return ("timed out" if verdict == "timed out" else "killed", f"{verdict}: {said}", time.monotonic() - start)
    # What a test that came before has worked out and kept, others may be the ones to notice.
    for reach in reaches if reached else []:
        whole = sum(reach.seconds.values())
        if whole <= SHORT:
            verdict, said = reach.judged(number, 5.0 * whole + 5.0, reach.tests)
            if verdict != "passed":
                return ("timed out" if verdict == "timed out" else "killed", f"{verdict}: {said}", time.monotonic() - start)
    left = sum(reach.seconds[name] > longest for reach in reaches for name in reach.tests_of(number))
    return ("survived", "no test reaches it" if not reached else f"no test notices it, {left} longer ones not asked" if left else
            "no test notices it", time.monotonic() - start)


def table_differs(root, change):
    """Whether the check that each table is as made from its file (layout/tables_are_as_generated) notices a change of one."""
    with tempfile.TemporaryDirectory(prefix="mutate_") as folder:
        copy = pathlib.Path(folder)
        shutil.copytree(root / "data", copy / "data", ignore=shutil.ignore_patterns("demo"))
        shutil.copytree(root / "include" / "samelight" / "tables", copy / "include" / "samelight" / "tables")
        text = (copy / change.path).read_text(encoding="utf-8")
        (copy / change.path).write_text(text[:change.start] + change.plain + text[change.end:], encoding="utf-8")
        command = [sys.executable, "-B", str(copy / "data" / "generate_headers.py"), "--check"]
        return subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False).returncode != 0
