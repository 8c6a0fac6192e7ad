#!/usr/bin/env python3
"""Makes the one page: the style, the scripts, the command as WebAssembly (packed), and a policy that forbids the page every connection.
Usage: assemble.py BUILT PAGE NOTICE...       (BUILT: the folder with samelight.js and samelight.wasm; NOTICE: NAME=FILE, the licence of something compiled in)
"""
import base64
import gzip
import hashlib
import os
import re
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
SCRIPTS = ("engine.js", "fields.js", "jobs.js", "answer.js", "page.js")


def text_of(*path):
    with open(os.path.join(*path), encoding="utf-8") as file:
        return file.read()


def harmless(script):
    """A script that can stand in a page: nothing in it ends the element."""
    if re.search(r"</script|<!--", script, re.IGNORECASE):
        sys.exit("assemble.py: a script says </script or <!--")
    return script


def packed(content):
    return base64.b64encode(gzip.compress(content, 9, mtime=0)).decode()


def main():
    built, page, *notices = sys.argv[1:]
    script = "\n" + harmless('"use strict";\n(() => {\n' + "\n".join(text_of(HERE, name) for name in SCRIPTS) + "})();") + "\n"
    worker = "\n" + harmless(text_of(HERE, "worker.js") + text_of(built, "samelight.js")) + "\n"
    with open(os.path.join(built, "samelight.wasm"), "rb") as file:
        command = packed(file.read())
    licences = packed("\n\n".join(f"==== {name}\n\n{text_of(file)}" for name, _, file in (n.partition("=") for n in notices)).encode())
    # The page's own script and no other; nothing is fetched, sent, framed or embedded from anywhere.
    script_hash = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    policy = (f"default-src 'none'; script-src 'sha256-{script_hash}' 'wasm-unsafe-eval'; worker-src blob:; style-src 'unsafe-inline'; "
              "img-src data: blob:; base-uri 'none'; form-action 'none'")
    parts = {"POLICY": policy, "STYLE": text_of(HERE, "page.css"), "SCRIPT": script, "WORKER": worker, "COMMAND": command, "LICENCES": licences}
    whole = re.sub(r"@(POLICY|STYLE|SCRIPT|WORKER|COMMAND|LICENCES)@", lambda found: parts[found[1]], text_of(HERE, "page.html"))
    with open(page, "w", encoding="utf-8") as file:
        file.write(whole)


if __name__ == "__main__":
    main()
