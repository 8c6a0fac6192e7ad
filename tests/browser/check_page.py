#!/usr/bin/env python3
"""The page that works without a network, as a person uses it, with the network off: files chosen, dropped or taken by keyboard alone, options
changed, answers saved. Every answer must be the command's own: its JSON to 1e-9, the words of its report, its line for a file that is broken.
Fails, too, where the page asks for anything, says something on the console, is wider than the screen (360 and 1,280 pixels), has too little
contrast, or a control without a name; and where it is over 3 MB.
Usage: check_page.py COMMAND PAGE DATA [--all]      (COMMAND: the built samelight; PAGE: what tools/page made; DATA: the folder data/; --all:
every odd file instead of every ninth)
Ends with 77 where there is no browser.
"""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "odd"))
from browser import find_browser
from check_reports import LOOK
from odd_files import all_files
from page import Page

SKIPPED = 77
MOST_BYTES = 3_000_000
TOLERANCE = 1e-9
WIDTHS = (360, 1280)


class Faults:
    def __init__(self):
        self.count = 0

    def expect(self, right, what):
        if not right:
            print(what)
            self.count += 1


def apart(one, other, where=""):
    """Where two JSON values differ by more than the tolerance, in numbers relative to 1 or to their size."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        return [d for key in one for d in apart(one[key], other[key], f"{where}.{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [d for i, (a, b) in enumerate(zip(one, other)) for d in apart(a, b, f"{where}[{i}]")]
    numbers = all(isinstance(v, (int, float)) and not isinstance(v, bool) for v in (one, other))
    if one == other or (numbers and abs(one - other) <= TOLERANCE * max(1.0, abs(one), abs(other))):
        return []
    return [f"{where}: {str(one)[:80]} and {str(other)[:80]}"]


class Native:
    """The command itself, in the folder of the files, so that they have the same names."""

    def __init__(self, command, data):
        self.command = os.path.abspath(command)
        self.demo = os.path.join(os.path.abspath(data), "demo")

    def within(self, folder):
        other = Native(self.command, "")
        other.demo = os.path.join(self.demo, folder)
        return other

    def run(self, words, folder=None):
        return subprocess.run([self.command, *words], cwd=folder or self.demo, capture_output=True, check=False)

    def report(self, words, folder):
        out = os.path.join(folder, "native.html")
        self.run([*words, "--report", out])
        with open(out, encoding="utf-8", newline="") as file:
            return file.read()


def same_answer(faults, page, native, words, folder, of_report=()):
    """What the page saves is what the command says."""
    _, json_text = page.save("#save-json")
    said = native.run([*words, "--json"])
    for difference in apart(json.loads(json_text), json.loads(said.stdout))[:5]:
        faults.expect(False, f"{' '.join(words)}: not the command's answer: {difference}")
    _, report = page.save("#save-report")
    faults.expect(report == native.report([*words, *of_report], folder), f"{' '.join(words)}: not the command's report")


def check_white(faults, page, native, folder):
    four = ["grading-monitor.csv", "client-set.csv", "desk-display.csv", "foyer-display.csv"]
    tube = ["--reference", "crt@0.3127,0.3290"]
    started = time.monotonic()
    said = page.choose("#displays-input", *(os.path.join(native.demo, name) for name in four))
    print(f"four displays, from the files to the report: {time.monotonic() - started:.2f} s")
    faults.expect(said["line"] == " ".join(["samelight", "white", *tube, *four]), "the line shown is " + said["line"])
    same_answer(faults, page, native, ["white", *four, *tube], folder)
    # Live as options change.
    said = page.fill("#reference", "D65")
    faults.expect("--reference D65" in said["line"], "the reference chosen isn't asked for: " + said["line"])
    same_answer(faults, page, native, ["white", *four, "--reference", "D65"], folder)
    page.fill("#reference", "crt")
    # What takes long is given up for what is asked next.
    before = page.asked()
    page.put("#further", "--people 100000")
    page.wait_for("document.getElementById('answer').classList.contains('working')", "a long answer that begins")
    said = page.fill("#further", "--noise 0.001")
    faults.expect(page.asked() == before + 1 and said["line"].endswith("--noise 0.001 " + " ".join(four)), f"asked twice: {said['line']}")
    page.fill("#further", "")
    page.clear()
    started = time.monotonic()
    page.drop("h1", os.path.join(native.demo, "client-set.csv"))
    print(f"one display, dropped: {time.monotonic() - started:.2f} s")
    page.ask("document.getElementById('add-viewer').click()")
    page.put("#viewer-rows li input", "45")
    page.fill("#viewer-rows li label:nth-of-type(2) input", "4")
    page.fill("#title", "Lantern Room")
    same = ["white", "client-set.csv", *tube, "--viewer", "45:4"]
    said = page.choose("#now-file-input", os.path.join(native.demo, "client-set-now.csv"))
    faults.expect("Lantern Room" in said["status"], "the heading typed isn't the report's: " + said["status"])
    page.fill("#title", "")
    same_answer(faults, page, native, [*same, "--now", "client-set-now.csv"], folder)


def check_meter(faults, page, native, folder):
    page.job("meter")
    started = time.monotonic()
    page.choose("#readings-input", *(os.path.join(native.demo, n) for n in ("client-set-readings.csv", "grading-monitor-readings.csv")))
    print(f"a correction: {time.monotonic() - started:.2f} s")
    page.choose("#meter-panel-input", os.path.join(native.demo, "client-set.csv"))
    name, kept = page.save("#save-written button")
    here = os.path.join(folder, name)
    native.run(["meter", "fit", "client-set-readings.csv", "grading-monitor-readings.csv", "--panel", "client-set.csv", "--write", here])
    with open(here, encoding="utf-8") as file:
        difference = apart(json.loads(kept), json.load(file))
    faults.expect(not difference, f"not the command's correction: {difference[:3]}")
    return here


def check_proof(faults, page, native, correction, folder):
    page.job("check")
    readings = os.path.join("proof", "client-set-proof.csv")
    started = time.monotonic()
    page.choose("#proof-input", os.path.join(native.demo, readings))
    print(f"a proof: {time.monotonic() - started:.2f} s")
    page.put("#chosen-typed", "0.3091,0.3199")
    page.fill("#curve", "power:2.4")
    meant = ["--white", "0.3091,0.3199", "--curve", "power:2.4"]
    same_answer(faults, page, native.within("proof"), ["check", "client-set-proof.csv", *meant], folder)
    # The meter's correction and the white that were made on this page, offered here.
    page.fill("#correction", os.path.basename(correction))
    said = page.fill("#chosen-white", "client-set.csv")
    faults.expect("--correction " + os.path.basename(correction) in said["line"], "the correction made here isn't used: " + said["line"])
    faults.expect(said["report"] and not said["errors"], f"no proof with what was made here: {said['errors']}")


def check_same_names(faults, page, native, folder):
    """Two files of one name, from two folders."""
    here = os.path.join(folder, "same")
    os.makedirs(os.path.join(here, "before"))
    shutil.copy(os.path.join(native.demo, "proof", "client-set-proof.csv"), os.path.join(here, "readings.csv"))
    shutil.copy(os.path.join(native.demo, "proof", "client-set-proof-before.csv"), os.path.join(here, "before", "readings.csv"))
    page.put("#chosen-white", "")
    page.put("#correction", "")
    page.choose("#proof-input", os.path.join(here, "readings.csv"))
    page.choose("#before-input", os.path.join(here, "before", "readings.csv"))
    page.fill("#for", "client")
    words = ["check", "readings.csv", "--before", "before/readings.csv", "--white", "0.3091,0.3199", "--curve", "power:2.4"]
    same_answer(faults, page, native.within(here), words, folder, ["--for", "client"])
    page.fill("#for", "")


def check_any(faults, page, native, folder):
    page.job("line")
    proof = native.within("proof")
    before = page.asked()
    page.browser.of_page("DOM.setFileInputFiles", {"nodeId": page.node("#line-files-input"), "files": [
        os.path.join(proof.demo, n) for n in ("client-set-greys.csv", "client-set-controls.csv")]})
    page.wait_for("document.querySelectorAll('#line-files li').length === 2", "two files")
    words = ["adjust", "client-set-greys.csv", "--controls", "client-set-controls.csv", "--white", "0.3091,0.3199", "--curve", "power:2.4"]
    page.put("#line", " ".join(words))
    page.ask("document.getElementById('run').click()")
    page.answered(before)
    same_answer(faults, page, proof, words, folder)


def check_broken(faults, page, native, every, folder):
    """Odd files as displays: the reader's own line, or the answer that the command gives."""
    page.open(1280, "light")
    refused = 0
    for i, (name, content) in enumerate(sorted(all_files().items())):
        if i % every:
            continue
        file = os.path.join(folder, name + ".csv")
        with open(file, "wb") as out:
            out.write(content)
        said = page.choose("#displays-input", file)
        native_said = native.run(["white", name + ".csv", "--reference", "crt@0.3127,0.3290", "--json"], folder)
        lines = [line.removeprefix("samelight: ") for line in native_said.stderr.decode().splitlines()]
        refused += native_said.returncode != 0
        faults.expect(said["errors"] == lines, f"{name}: the page says {said['errors']}, the command {lines}")
        faults.expect(said["report"] == (native_said.returncode == 0), f"{name}: a report from one of the two alone")
        page.clear()
        os.remove(file)
    faults.expect(refused > 5, "hardly a broken file was refused")
    print(f"{refused} broken files refused in the command's own words")


def focused(page):
    return page.ask("document.activeElement.id || document.activeElement.value || document.activeElement.textContent.trim()")


def check_keyboard(faults, page, native):
    """From the page's beginning to an answer that is saved, by Tab, arrows, Space and Enter alone."""
    page.open(1280, "dark")
    page.browser.of_page("Page.setInterceptFileChooserDialog", {"enabled": True})
    seen = []
    for _ in range(60):
        page.press("Tab")
        seen.append(focused(page))
        if seen[-1] == "displays-input":
            break
    outline = page.ask("getComputedStyle(document.activeElement).outlineStyle")
    faults.expect(seen[-1] == "displays-input" and outline != "none", f"Tab doesn't lead to the files, or it doesn't show: {seen}")
    page.browser.events = []
    before = page.asked()
    page.press(" ")
    chooser = None
    while chooser is None:
        page.ask("1")
        chooser = next((e["params"] for e in page.browser.events if e.get("method") == "Page.fileChooserOpened"), None)
    page.browser.of_page("DOM.setFileInputFiles", {"backendNodeId": chooser["backendNodeId"], "files": [os.path.join(native.demo, "client-set.csv")]})
    page.answered(before)
    for wanted in ("reference", "add-viewer"):
        while focused(page) != wanted and len(seen) < 200:
            page.press("Tab")
            seen.append(focused(page))
    before = page.asked()
    page.press("Enter")  # a viewer: the row's first field has the focus then
    page.type("62")
    faults.expect("--viewer 62" in page.answered(before)["line"], "a viewer typed by keyboard isn't asked for")
    page.browser.events = []
    while focused(page) != "save-report" and len(seen) < 200:
        page.press("Tab")
        seen.append(focused(page))
    faults.expect(focused(page) == "save-report", f"Tab doesn't lead to what saves: {seen[-30:]}")
    page.browser.of_page("Page.setInterceptFileChooserDialog", {"enabled": False})


def check_looks(faults, page, native):
    for width in WIDTHS:
        for scheme in ("light", "dark"):
            page.open(width, scheme)
            where = f"{width} pixels, {scheme}"
            for job, field, file in (("white", "displays", "client-set.csv"), ("meter", "readings", "client-set-readings.csv"),
                                     ("check", "proof", os.path.join("proof", "client-set-proof.csv")), ("line", None, None)):
                if job != "white":
                    page.job(job)
                page.ask("document.querySelectorAll('details').forEach(d => d.open = true)")
                if field:
                    page.choose(f"#{field}-input", os.path.join(native.demo, file))
                for fault in page.ask(LOOK):
                    faults.expect(False, f"{job}, {where}: {fault}")
                inside = page.ask("(() => { const f = document.getElementById('report'); const d = f.contentDocument.documentElement;"
                                  "return f.hidden ? [0, 0] : [d.scrollWidth - d.clientWidth, d.scrollHeight - f.clientHeight]; })()")
                faults.expect(max(inside) <= 0, f"{job}, {where}: the report is wider or higher than its frame by {inside}")
                for role, name in page.names():
                    faults.expect(name.strip() or role in ("group", "region"), f"{job}, {where}: a {role} without a name")
            for fault in page.events():
                faults.expect(False, f"{where}: {fault}")


def check_closed(faults, page):
    """Nothing leaves the page even where something in it tried to."""
    page.open(1280, "light")
    said = page.browser.of_page("Runtime.evaluate", {"awaitPromise": True, "returnByValue": True, "expression": """(async () => {
        const refused = [];
        document.addEventListener('securitypolicyviolation', e => refused.push(e.effectiveDirective));
        const tried = [fetch('http://127.0.0.1:9/'), new Promise((y, n) => Object.assign(new Image(), {onerror: n, onload: y}).src = 'http://127.0.0.1:9/i.png')];
        const came = await Promise.allSettled(tried);
        await new Promise(done => setTimeout(done, 50));
        return [came.map(c => c.status), refused];
    })()"""})["result"]["value"]
    faults.expect(said == [["rejected", "rejected"], ["connect-src", "img-src"]], f"the page's policy lets something out: {said}")


def check_licences(faults, page):
    page.ask("document.getElementById('licences').open = true")
    said = page.wait_for("document.querySelector('#licences pre').textContent", "the licences")
    faults.expect("==== samelight" in said and "==== pugixml" in said, "the licences of what is compiled in aren't shown")


def main():
    command, path, data = sys.argv[1:4]
    program = find_browser()
    if not program:
        print("no Chromium here: the page wasn't opened")
        sys.exit(SKIPPED)
    faults = Faults()
    size = os.path.getsize(path)
    print(f"{size} bytes")
    faults.expect(size < MOST_BYTES, f"{size} bytes, over {MOST_BYTES}")
    with open(path, encoding="utf-8") as file:
        outer = re.findall(r"(?:src|href)=[\"']?(?!#)[^\"' >]+", file.read().split('id="worker-text"')[0])
    faults.expect(not outer, f"the page names others: {outer}")
    native = Native(command, data)
    page = Page(program, path)
    try:
        with tempfile.TemporaryDirectory(prefix="samelight-page-") as folder:
            page.open(1280, "light")
            check_white(faults, page, native, folder)
            correction = check_meter(faults, page, native, folder)
            check_proof(faults, page, native, correction, folder)
            check_same_names(faults, page, native, folder)
            check_any(faults, page, native, folder)
            for fault in page.events():
                faults.expect(False, fault)
            check_broken(faults, page, native, 1 if "--all" in sys.argv else 9, folder)
            check_keyboard(faults, page, native)
            check_looks(faults, page, native)
            check_closed(faults, page)
            check_licences(faults, page)
    finally:
        page.close()
    print(f"{faults.count} faults")
    sys.exit(1 if faults.count else 0)


if __name__ == "__main__":
    main()
