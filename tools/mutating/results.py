"""What is known of each change, kept after each, and the table by room."""
import json
import os
import threading

from draw import ROOMS


class Results:
    def __init__(self, path, seed):
        self.path, self.lock = path, threading.RLock()
        self.all = json.loads(path.read_text(encoding="utf-8")) if path.is_file() else {}
        if self.all.get("seed") != seed:
            self.all = {"seed": seed, "mutants": {}}

    def of(self, name):
        return self.all["mutants"].get(name)

    def keep(self, mutant, verdict, by, seconds, longest):
        change = mutant.change
        found = {
            "room": mutant.room, "path": change.path, "line": change.line, "column": change.column, "kind": change.kind,
            "from": mutant.original, "to": change.plain, "verdict": verdict, "by": by, "seconds": round(seconds, 2), "longest": longest}
        with self.lock:
            self.all["mutants"][mutant.name] = found
            self.write()

    def wider(self, mutant, text):
        with self.lock:
            self.of(mutant.name)["wider"] = text
            self.write()

    def write(self):
        with self.lock:
            self.write_alone()

    def write_alone(self):
        # Another run may have written since.
        if self.path.is_file():
            other = json.loads(self.path.read_text(encoding="utf-8"))
            if other.get("seed") == self.all["seed"]:
                for name, result in other["mutants"].items():
                    self.all["mutants"].setdefault(name, result)
        new = self.path.with_suffix(".new")
        new.write_text(json.dumps(self.all, indent=1) + "\n", encoding="utf-8")
        os.replace(new, self.path)

    def table(self, names):
        """Of the changes named, by room. A change that made a test hang is killed, too; by others: those that survived, by other rooms' tests."""
        lines = [f"{'room':<12}{'tried':>7}{'killed':>8}{'hung':>6}{'survived':>10}{'not reached':>13}{'killed %':>10}{'by others':>11}{'by all %':>10}"
                 f"{'seconds':>9}"]

        def line(title, rows):
            killed = sum(r["verdict"] == "killed" for r in rows)
            hung = sum(r["verdict"] == "timed out" for r in rows)
            left = [r for r in rows if r["verdict"] == "survived"]
            others = sum("wider" in r and not r["wider"].startswith("survived") for r in left)

            def share(count):
                return f"{100.0 * count / len(rows):.1f}" if rows else "-"

            return (f"{title:<12}{len(rows):>7}{killed:>8}{hung:>6}{len(left):>10}{sum('reaches' in r['by'] for r in left):>13}{share(killed + hung):>10}"
                    f"{others:>11}{share(killed + hung + others):>10}{sum(r['seconds'] for r in rows):>9.0f}")

        known = [self.of(name) for name in names if self.of(name)]
        for room in ROOMS:
            rows = [r for r in known if r["room"] == room]
            if rows:
                lines.append(line(room, rows))
        return "\n".join(lines + [line("all", known)])
