"""The changes that are tried: drawn, put into the copy, and those replaced that don't compile there."""
import collections
import json
import os
import sys

import draw
from tree import blamed, files_of

Mutant = collections.namedtuple("Mutant", "name number room change original")

# More are put in than are asked for, so that those which don't compile need no second build.
SPARE = 1.25
ROUNDS = 15


class Plan:
    def __init__(self, tree, seed, count, jobs, say):
        self.tree, self.seed, self.count, self.jobs, self.say = tree, seed, count, jobs, say
        self.path = tree.folder / "plan.json"
        self.state = json.loads(self.path.read_text(encoding="utf-8")) if self.path.is_file() else {}
        if self.state.get("seed") != seed:
            self.state = {"seed": seed, "rooms": [], "numbers": {}, "early": [], "left_out": {}}
        self.texts, self.candidates, self.quotas = {}, {}, {}

    def write(self):
        new = self.path.with_suffix(".new")
        new.write_text(json.dumps(self.state, indent=1) + "\n", encoding="utf-8")
        os.replace(new, self.path)

    def number(self, name):
        numbers = self.state["numbers"]
        return numbers.setdefault(name, len(numbers) + 1)

    def draw(self):
        files = files_of(self.tree.root)
        by_room = draw.sources(self.tree.root, files)
        self.texts = {path: text for room in by_room.values() for path, text in room}
        self.quotas = draw.quotas(by_room, self.count)
        for room in self.state["rooms"]:
            if room == "tables":
                self.candidates[room] = list(draw.table_changes(by_room[room], self.seed))
                self.quotas[room] = len(self.candidates[room])
            else:
                self.candidates[room] = draw.in_order(room, by_room[room], self.seed)
        # A generator's first ones, as far as they are asked for.
        for room, source in self.candidates.items():
            self.candidates[room] = source if isinstance(source, list) else [next(source, None) for _ in range(self.quotas[room] * 6 + 20)]
            self.candidates[room] = [c for c in self.candidates[room] if c]

    def placed(self, room):
        """What stands in the copy: those not left out, as many as asked for and some to spare, of which what doesn't compile is replaced."""
        usable = [(name, change) for name, change in self.candidates[room] if name not in self.state["left_out"]]
        there = [(name, change) for name, change in usable if name in self.state["numbers"]]
        if room == "tables" or len(there) >= self.quotas[room]:
            return usable if room == "tables" else there
        more = [(name, change) for name, change in usable if name not in self.state["numbers"]]
        return there + more[:int(self.quotas[room] * SPARE) + 2 - len(there)]

    def all_placed(self):
        by_path, lines = collections.defaultdict(list), {}
        for room in self.candidates:
            for name, change in self.placed(room):
                number, level = self.number(name), "early" if name in self.state["early"] else "late"
                by_path[change.path].append((number, level, change))
                text = self.texts[change.path]
                first = change.line if not change.declared else text.count("\n", 0, change.declared[0]) + 1
                lines[number] = (change.path, first, change.line + text.count("\n", change.start, change.end), name)
        return by_path, lines

    def refuse(self, numbers, lines):
        """What the compiler was to run itself is tried in the other form; what doesn't compile is left out."""
        for number, constant in numbers.items():
            name = lines[number][3]
            if constant and name not in self.state["early"]:
                self.state["early"].append(name)
            else:
                self.state["left_out"][name] = "does not compile"
        self.write()

    def prepared(self, rooms, as_it_is=False):
        """Puts the changes of these rooms into the copy, beside those of rooms that are there already."""
        self.state["rooms"] += [room for room in rooms if room not in self.state["rooms"]]
        self.draw()
        if as_it_is:
            return
        by_path, _ = self.all_placed()
        self.write()
        self.tree.copy(by_path)
        self.tree.configure()

    def built(self, room, as_it_is=False):
        """The changes of a room that compile, built into its tests. as_it_is: they were built before."""
        for _ in range(0 if as_it_is else ROUNDS):
            by_path, lines = self.all_placed()
            self.tree.copy(by_path)
            log, good = self.tree.make(draw.ROOMS[room], self.jobs)
            if good:
                break
            numbers = blamed(self.tree.tree, log, lines)
            if not numbers:
                sys.exit(f"tools/mutate: the copy does not build, and by no change: see {self.tree.folder}/build.log")
            self.say(f"{len(numbers)} changes do not compile as they stand")
            self.refuse(numbers, lines)
        else:
            if not as_it_is:
                sys.exit(f"tools/mutate: the copy of {room} does not build after {ROUNDS} rounds")
        self.write()
        return [Mutant(name, self.number(name), room, change, self.texts[change.path][change.start:change.end])
                for name, change in self.placed(room)]

    def counted(self, mutants, reached):
        """As many of each room as were asked for, without those that no running program asks: the compiler has worked them out.

        reached(mutant): whether any test of the room reaches it."""
        result, count = [], collections.Counter()
        for mutant in mutants:
            if count[mutant.room] >= self.quotas[mutant.room]:
                continue
            if mutant.name in self.state["early"] and not reached(mutant):
                continue
            count[mutant.room] += 1
            result.append(mutant)
        return result
