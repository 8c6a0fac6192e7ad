#!/usr/bin/env python3
"""Looks over the pages that doxygen made. Usage: built.py HTML

Removes what no page uses (scripts, pictures of folders), and fails where a page runs a script, fetches anything from elsewhere, leads to a file or a
place on a page that isn't there, or has a name twice.
"""
import html.parser
import pathlib
import re
import sys
import urllib.parse

FEWEST = 300
PLACES = {"href", "src"}


class Page(html.parser.HTMLParser):
    """The names on a page and where it leads."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.names, self.leads, self.faults = set(), [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        known = dict(attrs)
        if tag == "script":
            self.faults.append("runs a script")
        for name in {known.get("id"), known.get("name") if tag == "a" else None} - {None, ""}:
            self.names.add(name)
        self.leads += [value for key, value in attrs if key in PLACES and value and not value.startswith("#")]
        self.leads += [value for key, value in attrs if key == "href" and value and value.startswith("#")]
        if tag != "a":
            self.faults += [f"fetches {value}" for key, value in attrs if key in PLACES and value and re.match(r"\w+:", value)]


def mended(text, own, places):
    """A page as it is kept. doxygen leads to friends of a class and to lists of what is hidden as if they had a place of their own; such a link leads
    to the page then. On the pages that people write nothing is mended. places: {page: names}, "" for the page itself."""
    text = re.sub(r'<img src="closed\.png"[^>]*/>', "", text)
    if own:
        return text

    def lead(m):
        there = places.get(m[1])
        return m[0] if there is None or m[2] in there else f'href="{m[1] or "#"}"'

    return re.sub(r'href="([^"#:]*)#([^"]+)"', lead, text)


def main():
    folder = pathlib.Path(sys.argv[1])
    for unused in [*folder.glob("*.js"), *folder.glob("*.png"), folder / "doxygen.svg"]:
        unused.unlink(missing_ok=True)
    pages = {path.name: Page(path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.html"))}
    places = {name: page.names for name, page in pages.items()}
    faults = []
    for name in list(pages):
        text = (folder / name).read_text(encoding="utf-8")
        kept = mended(text, name == "index.html" or name.startswith("page_"), {**places, "": places[name]})
        if kept != text:
            (folder / name).write_text(kept, encoding="utf-8")
            pages[name] = Page(kept)
    for name, page in pages.items():
        faults += [f"{name}: {fault}" for fault in page.faults]
        for lead in page.leads:
            if re.match(r"\w+:", lead):
                continue
            file, _, place = lead.partition("#")
            file, place = urllib.parse.unquote(file), urllib.parse.unquote(place)
            if file and not (folder / file).is_file():
                faults.append(f"{name}: leads to {file}, which isn't there")
            elif place and (file or name) in pages and place not in pages[file or name].names:
                faults.append(f"{name}: leads to {lead}, a place that isn't there")
    if len(pages) < FEWEST:
        faults.append(f"{len(pages)} pages; wanted {FEWEST} at least")
    for fault in faults[:40]:
        print(fault)
    print(f"{len(pages)} pages, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
