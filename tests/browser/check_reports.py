#!/usr/bin/env python3
"""Opens the command's reports in a browser as readers would: three widths, light and dark. Fails where a page says something on the console,
asks for anything, is wider than the screen, has a picture without title or description, words on top of each other or cut off, too little
contrast (WCAG 2.1, 1.4.3: 4.5 to 1, 3 to 1 for large type), or other numbers than the JSON,
and where an HTML validator (tidy) has anything to say.
Usage: check_reports.py COMMAND DATA        (COMMAND: the built samelight; DATA: the folder data/)
Ends with 77 where there is no browser or no validator.
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile

from browser import Browser, find_browser

SKIPPED = 77
WIDTHS = (360, 768, 1280)

# Everything in one look: a list of faults, empty where there are none.
LOOK = r"""
(() => {
  const faults = [];
  const name = e => (e.id || e.closest('[id]')?.id || e.tagName) + ' "' + (e.textContent || '').trim().slice(0, 40) + '"';
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  if (wide > 0) faults.push('wider than the screen by ' + wide);

  const channel = v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const luminance = c => 0.2126 * channel(c[0]) + 0.7152 * channel(c[1]) + 0.0722 * channel(c[2]);
  const numbers = s => (s.match(/[\d.]+/g) || []).map(Number);
  const behind = e => {
    for (; e; e = e.parentElement) {
      const c = numbers(getComputedStyle(e).backgroundColor);
      if (c.length === 3 || (c.length === 4 && c[3] === 1)) return c;
      if (c.length === 4 && c[3] > 0) { const b = behind(e.parentElement); return c.slice(0, 3).map((v, i) => c[3] * v + (1 - c[3]) * b[i]); }
    }
    return [255, 255, 255];
  };
  const contrast = (a, b) => { const [h, l] = [luminance(a), luminance(b)].sort((x, y) => y - x); return (h + 0.05) / (l + 0.05); };
  for (const e of document.querySelectorAll('body *')) {
    const own = [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
    if (!own || ['STYLE', 'TITLE', 'DESC', 'title', 'desc'].includes(e.tagName) || !e.getClientRects().length) continue;
    const style = getComputedStyle(e);
    const ink = numbers(e instanceof SVGElement ? style.fill : style.color).slice(0, 3);
    const large = parseFloat(style.fontSize) >= 24 || (parseFloat(style.fontSize) >= 18.66 && parseInt(style.fontWeight) >= 700);
    const found = contrast(ink, behind(e));
    if (found < (large ? 3 : 4.5)) faults.push('contrast ' + found.toFixed(2) + ' of ' + name(e));
  }

  for (const picture of document.querySelectorAll('figure > svg')) {
    for (const part of ['title', 'desc']) {
      if (!picture.querySelector(':scope > ' + part)?.textContent.trim()) faults.push('no ' + part + ' in ' + name(picture));
    }
    const frame = picture.getBoundingClientRect();
    const words = [...picture.querySelectorAll('text')].map(t => [t, t.getBoundingClientRect()]);
    words.forEach(([t, a], i) => {
      if (a.left < frame.left - 0.5 || a.right > frame.right + 0.5 || a.top < frame.top - 0.5 || a.bottom > frame.bottom + 0.5) {
        faults.push('cut off: ' + name(t) + ' in ' + name(picture));
      }
      // A box of text is taller than its letters: a tenth at top and bottom is air.
      const air = 0.12 * a.height;
      for (const [u, b] of words.slice(i + 1)) {
        if (a.left < b.right - 0.5 && b.left < a.right - 0.5 && a.top + air < b.bottom - air && b.top + air < a.bottom - air) {
          faults.push(t.textContent + ' lies on ' + u.textContent + ' in ' + (picture.parentElement.id));
        }
      }
    });
  }
  return faults;
})()
"""


# A plan is a table, and these say in words what whoever owns the display is to know.
WITHOUT_PICTURE = ("a visit", "a client's proof", "a client's gradients", "a client's year")


def reports(command, data, folder):
    """The reports: a name, the page, and what the JSON has that must stand on it."""
    demo = os.path.join(data, "demo")
    tube = ["--reference", "crt@0.3127,0.3290"]
    client = ["--for", "client"]
    proof = os.path.join(demo, "proof", "")
    chosen = ["--white", "0.3091,0.3199", "--curve", "power:2.4"]
    asked = {
        "one display": ["white", os.path.join(demo, "grading-monitor.csv"), *tube],
        "a household": ["white", os.path.join(demo, "client-set.csv"), *tube, "--viewer", "45:4", "--viewer", "62:10", "--viewer", "8"],
        "two viewers": ["white", os.path.join(demo, "grading-monitor.csv"), *tube, "--viewer", "45:4", "--viewer", "62:10"],
        "a room": ["white", *(os.path.join(demo, n) for n in ("grading-monitor.csv", "client-set.csv", "desk-display.csv", "foyer-display.csv")), *tube],
        "a type": ["white", "lcd-narrow-red", "--budget"],
        "pairs": ["metamerism", *(os.path.join(demo, n) for n in ("grading-monitor.csv", "client-set.csv", "desk-display.csv", "foyer-display.csv")), "oled-rgb"],
        "a file": ["spectrum", os.path.join(demo, "client-set.csv"), "--bandwidth", "5"],
        "files": ["spectrum", os.path.join(demo, "projector-red.csv"), os.path.join(demo, "projector-white.csv"), "--lines", "mercury"],
        "a modelled correction": ["meter", "model", "cie1964-10deg", os.path.join(demo, "client-set.csv"), "--reference", "D65"],
        "a table of corrections": ["meter", "choose", "--table", "--meter", "cie1964-10deg"],
        "a fit": ["meter", "fit", os.path.join(demo, "client-set-readings.csv"), os.path.join(demo, "grading-monitor-readings.csv")],
        "a choice": ["meter", "choose", "crt", os.path.join(demo, "client-set.csv"), "--correction", os.path.join(folder, "kept.json")],
        "a client's white": ["white", os.path.join(demo, "client-set.csv"), *tube, "--viewer", "45:4", *client],
        "a client's pairs": ["metamerism", os.path.join(demo, "client-set.csv"), os.path.join(demo, "desk-display.csv"), *client],
        "a client's spectra": ["spectrum", os.path.join(demo, "client-set.csv"), *client],
        "targets": ["targets", os.path.join(demo, "client-set.csv"), "--reference", os.path.join(demo, "grading-monitor.csv")],
        "a visit": ["visit", "lounge:cinema,game", "hall", "--minutes", "150", "--warm-up", f"lounge={proof}client-set-warming-up.csv"],
        "a proof": ["check", proof + "client-set-proof.csv", "--before", proof + "client-set-proof-before.csv", *chosen],
        "controls": ["adjust", proof + "client-set-greys.csv", "--controls", proof + "client-set-controls.csv", "--points", "10", *chosen],
        "gradients": ["gradient", "--adjustment", proof + "client-set-adjustment.csv", "--readings", proof + "client-set-smooth-proof.csv", "--curve", "power:2.4"],
        "high dynamic range": ["hdr", proof + "client-set-hdr.csv", "--white", "0.3127,0.3290"],
        "a year later": ["compare", proof + "client-set-then.csv", proof + "client-set-now-year.csv", "--months", "12"],
        "a client's proof": ["check", proof + "client-set-proof.csv", "--before", proof + "client-set-proof-before.csv", *chosen, *client],
        "a client's gradients": ["gradient", "--adjustment", proof + "client-set-adjustment.csv", *client],
        "a client's year": ["compare", proof + "client-set-then.csv", proof + "client-set-now-year.csv", *client],
        "hostile words": ["white", "crt", "--title", "<b>&\"' <script>x</script>", "--note", "</p><img src=x onerror=alert(1)>"],
    }
    subprocess.run([command, *asked["a fit"], "--panel", os.path.join(demo, "client-set.csv"), "--write", os.path.join(folder, "kept.json")],
                   capture_output=True, check=True)
    for name, words in asked.items():
        page = os.path.join(folder, name.replace(" ", "-") + ".html")
        for more in (["--report", page], ["--json"]):
            kept = words
            if more == ["--json"]:
                kept = ["white", "crt"] if name == "hostile words" else [w for w in words if w not in client]
            said = subprocess.run([command, *kept, *more], capture_output=True, text=True, check=True)
        yield name, page, json.loads(said.stdout)


def validated(page):
    """What the validator says: a line a fault."""
    said = subprocess.run(["tidy", "-q", "-e", "--show-info", "no", page], capture_output=True, text=True, check=False)
    return [line for line in said.stderr.splitlines() if line.strip()]


def whites_said(answer):
    """Of every display the x and y of its first white, as they may be written: in two, three or four places."""
    for panel in answer["panels"]:
        white = panel.get("household_target") or panel["targets"][0]
        yield "white of " + panel["name"], [f"x {white['x']:.{n}f}, y {white['y']:.{n}f}" for n in (4, 3, 2)]


def figures_said(answer):
    """What must stand on the page: what it is, and the ways in which it may be written."""
    schema = answer["schema"].split("/")[1]
    if schema == "white":
        yield from whites_said(answer)
    elif schema == "metamerism":
        for pair in answer["pairs"]:
            for setting in pair["settings"][:2]:
                yield f"{pair['first']} and {pair['second']}", [f"{setting['white']['de00']['mean']:.1f}"]
    elif schema in ("spectrum", "spectra"):
        for file in answer.get("files", [answer]):
            for column in file["columns"]:
                for seen in [] if column["noise_alone"] else column["chromaticities"]:
                    yield column["name"], [f"x {seen['x']:.4f} y {seen['y']:.4f}"]
    elif schema == "meter-model":
        for row in answer["reference_from_meter"]:
            for value in row:
                yield "the matrix", [f"{value:.6f}"]
    elif schema == "meter-table":
        for panel in answer["panels"]:
            yield panel["name"], [f"{panel['without_correction']['white_xy']:.4f}"]
    elif schema == "meter-choose":
        for panel in answer["panels"]:
            yield panel["name"], [f"{panel['with'][0]['expected_error']['white_xy']:.4f}"]
    elif schema == "meter-fit":
        yield "colours left out", [f"{answer['verdict']['left_out_xy_after']:.4f}"]
    elif schema == "targets":
        x, y, z = answer["white_xyz_cd_m2"]
        yield "the white", [f"x {x / (x + y + z):.4f}, y {y / (x + y + z):.4f}"]
    elif schema == "check":
        yield "the largest difference", [f"{answer['now']['chosen']['gate']['largest_de00']:.2f}"]
    elif schema == "adjust":
        yield "the white then", [f"x {answer['white']['after']['x']:.4f}, y {answer['white']['after']['y']:.4f}"]
    elif schema == "gradient":
        for control in answer["adjustment"]["controls"]:
            if control["shows_beyond"] is not None:
                yield control["control"], [f"{control['shows_beyond']:+.1f}"]
    elif schema == "hdr":
        yield "the peak", [f"{answer['limiter']['peak_cd_m2']:.0f} cd/m2"]
    elif schema == "compare":
        yield "today's minutes", [f"{answer['today_min']:.0f} min"]
    elif schema == "visit":
        for step in answer["steps"]:
            yield step["step"] + " of " + step["display"], [f"{step['minutes']:.1f}"]
    else:
        yield "a schema that this test knows", [schema]


def main():
    command, data = sys.argv[1:3]
    program = find_browser()
    if not program or not shutil.which("tidy"):
        print("no Chromium or no tidy here: reports weren't opened")
        sys.exit(SKIPPED)
    faults = 0
    with tempfile.TemporaryDirectory(prefix="samelight-reports-") as folder:
        browser = Browser(program)
        try:
            for name, page, answer in reports(command, data, folder):
                for line in validated(page):
                    print(f"{name}: {line}")
                    faults += 1
                for width in WIDTHS:
                    for scheme in ("light", "dark"):
                        events = browser.open(page, width, scheme)
                        found = [f"says {json.dumps(e['params'])[:200]}" for e in events
                                 if e.get("method") in ("Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown")]
                        asked = [e["params"]["request"]["url"] for e in events if e.get("method") == "Network.requestWillBeSent"]
                        found += [f"asks for {url}" for url in asked if url != "file://" + page]
                        browser.ask("document.querySelectorAll('details').forEach(d => d.open = true)")
                        found += browser.ask(LOOK)
                        for fault in found:
                            print(f"{name}, {width} pixels, {scheme}: {fault}")
                        faults += len(found)
                if name not in WITHOUT_PICTURE and not browser.ask("document.querySelectorAll('figure > svg').length"):
                    print(f"{name}: no picture")
                    faults += 1
                shown = browser.ask("document.body.innerText")
                # A client's page has words for most figures.
                figures = whites_said(answer) if name == "a client's white" else () if "client" in name else figures_said(answer)
                for of, ways in figures:
                    if not any(way in shown for way in ways):
                        print(f"{name}: {ways[0]}, {of}, isn't on the page")
                        faults += 1
        finally:
            browser.close()
    print(f"{faults} faults")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
