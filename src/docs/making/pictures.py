"""The pictures of the pages: figures of the command's own reports, asked for when the pages are made, so that they can't go stale."""
import pathlib
import re
import shutil
import subprocess
import tempfile

TUBE = ["--reference", "crt@0.3127,0.3290"]
CHOSEN = ["--white", "0.3091,0.3199", "--curve", "power:2.4"]
PROOF = "proof/client-set-"

# What is asked, in data/demo.
REPORTS = {
    "spectrum": ["spectrum", "client-set.csv"],
    "white": ["white", "client-set.csv", *TUBE],
    "python": ["white", "grading-monitor.csv", "client-set.csv", *TUBE],
    "viewers": ["white", "client-set.csv", *TUBE, "--viewer", "28", "--viewer", "64:4"],
    "fit": ["meter", "fit", "client-set-readings.csv", "--panel", "client-set.csv"],
    "adjust": ["adjust", PROOF + "greys.csv", "--controls", PROOF + "controls.csv", *CHOSEN],
    "check": ["check", PROOF + "proof.csv", "--before", PROOF + "proof-before.csv", *CHOSEN],
    "gradient": ["gradient", "--adjustment", PROOF + "adjustment.csv", "--readings", PROOF + "smooth-proof.csv", "--curve", "power:2.4"],
    "compare": ["compare", PROOF + "then.csv", PROOF + "now-year.csv", "--months", "12"],
}
FIGURE = re.compile(r'<figure id="([^"]+)">.*?</figure>', re.DOTALL)
# The lines of a report's style sheet that its figures need.
STYLES = re.compile(r"^(?:svg|\.ink|figure|figcaption|ul\.key|:root|@media \(prefers|  --)[^\n]*", re.MULTILINE)


def asked_for(pages):
    """(report, figure) of every picture that the texts of some pages want."""
    return [tuple(m) for text in pages for m in PICTURE.findall(text)]


PICTURE = re.compile(r"<!-- picture: (\S+) (\S+) -->")


class Pictures:
    """The reports that have been asked for so far."""

    def __init__(self, command, root):
        self.command = pathlib.Path(command).resolve()
        self.folder = tempfile.TemporaryDirectory(prefix="samelight-pictures-")
        self.demo = pathlib.Path(self.folder.name) / "demo"
        shutil.copytree(pathlib.Path(root) / "data" / "demo", self.demo)
        self.pages = {}

    def page(self, report):
        """A report's HTML."""
        if report not in self.pages:
            file = pathlib.Path(self.folder.name) / (report + ".html")
            subprocess.run([self.command, *REPORTS[report], "--report", file], cwd=self.demo, check=True, stdout=subprocess.DEVNULL)
            self.pages[report] = file.read_text(encoding="utf-8")
        return self.pages[report]

    def figure(self, report, figure):
        """One figure of it as HTML, its names made its own so that figures of several reports can stand on one page."""
        for m in FIGURE.finditer(self.page(report)):
            if m[1] == figure:
                return re.sub(rf'(id|aria-describedby|aria-labelledby|href|clip-path)="(#?)(url\(#)?{figure}', rf'\1="\2\g<3>{report}-{figure}', m[0])
        raise SystemExit(f"src/docs: no figure {figure} in the report {report}; it has {', '.join(m[1] for m in FIGURE.finditer(self.page(report)))}")

    def styles(self):
        """What a style sheet must have for the figures."""
        sheet = re.search(r"<style>\n(.*?)</style>", self.page("white"), re.DOTALL)[1]
        sheet = sheet.split("@page")[0]
        return "\n".join(STYLES.findall(sheet)) + "\n"
