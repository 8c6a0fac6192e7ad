"""What the command says of itself (`samelight --describe`), for the makers of manual pages and completion."""
import json
import subprocess


class Option:
    """A word or an option of a command: as the JSON has it, and how it is written."""

    def __init__(self, said):
        self.names = said["names"]
        self.value = said["value"]
        self.description = " ".join(said["description"].split())
        self.default = said["default"]
        self.required = said["required"]
        self.needs = said["needs"]
        self.excludes = said["excludes"]
        self.repeats = said["repeats"]
        self.number = said["number"]
        self.values = said["values"]

    @property
    def positional(self):
        return not self.names

    @property
    def takes_files(self):
        """Whether names of files make sense in its place: not for numbers, nor where names that are known are all there is."""
        if not self.value or self.number:
            return False
        return not self.values or (" file" in self.description and not any(v.endswith("=") for v in self.values))


class Command:
    """A command with its options and its own commands; `path` is what is typed: ["samelight", "meter", "fit"]."""

    def __init__(self, said, above=()):
        self.path = [*above, said["name"]]
        self.description = " ".join(said["description"].split())
        self.options = [Option(one) for one in said["options"]]
        self.commands = [Command(one, self.path) for one in said["commands"]]

    @property
    def page(self):
        """The name of its manual page."""
        return "-".join(self.path)

    def walk(self):
        yield self
        for command in self.commands:
            yield from command.walk()


def described(program):
    """The command samelight itself, as the program describes it."""
    said = subprocess.run([program, "--describe"], check=True, capture_output=True, text=True, encoding="utf-8").stdout
    return Command(json.loads(said))


def version_of(program):
    said = subprocess.run([program, "--version"], check=True, capture_output=True, text=True, encoding="utf-8").stdout
    name, version = said.split()
    if name != "samelight":
        raise ValueError(f"{program} --version says {said!r}; wanted samelight and a version")
    return version
