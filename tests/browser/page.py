"""The page that works without a network, driven as its reader drives it: files chosen, fields filled, keys pressed, what it offers saved."""
import json
import os
import tempfile
import time

from browser import Browser

# Longer than any answer takes on a busy machine; nothing here is about speed.
PATIENCE_S = 120.0


class Page:
    def __init__(self, program, path):
        self.path = os.path.abspath(path)
        self.browser = Browser(program)
        self.saved = tempfile.TemporaryDirectory(prefix="samelight-saved-")
        self.browser.call("Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": self.saved.name})
        # No network, and word of whatever is asked for all the same.
        self.browser.of_page("Network.emulateNetworkConditions", {"offline": True, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0})
        self.browser.of_page("Accessibility.enable")

    def open(self, width, scheme):
        self.browser.open(self.path, width, scheme)
        self.answered(after=0)

    def events(self):
        """What the browser said since the last look, as lines of faults."""
        found = []
        for event in self.browser.events:
            if event.get("method") in ("Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown"):
                found.append("says " + json.dumps(event["params"])[:300])
            if event.get("method") == "Network.requestWillBeSent":
                url = event["params"]["request"]["url"]
                if not url.startswith(("file://" + self.path, "blob:", "about:srcdoc")):
                    found.append("asks for " + url)
        self.browser.events = []
        return found

    def ask(self, expression):
        return self.browser.ask(expression)

    def wait_for(self, expression, what):
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            value = self.ask(expression)
            if value:
                return value
            time.sleep(0.02)
        raise RuntimeError(f"the page: waited in vain for {what}: {self.ask('document.body.innerText')[-300:]}")

    def asked(self):
        """The number of the last answer, to be handed to answered()."""
        return self.ask("Number(document.getElementById('answer').dataset.count)")

    def answered(self, after):
        """The answer that came after another: its status, its lines of faults, its command line."""
        self.wait_for(f"Number(document.getElementById('answer').dataset.count) > {after} && "
                      "!document.getElementById('answer').classList.contains('working')", "an answer")
        return self.ask("""({status: document.getElementById('status').textContent,
            errors: [...document.querySelectorAll('#errors li')].map(e => e.textContent),
            line: document.getElementById('same').hidden ? '' : document.getElementById('same-line').textContent,
            report: !document.getElementById('report').hidden})""")

    def node(self, selector):
        root = self.browser.of_page("DOM.getDocument", {"depth": 0})["root"]["nodeId"]
        found = self.browser.of_page("DOM.querySelector", {"nodeId": root, "selector": selector})["nodeId"]
        if not found:
            raise RuntimeError("the page has no " + selector)
        return found

    def choose(self, selector, *files):
        """Files for an input, and the answer that follows."""
        before = self.asked()
        self.browser.of_page("DOM.setFileInputFiles", {"nodeId": self.node(selector), "files": [os.path.abspath(f) for f in files]})
        return self.answered(before)

    def drop(self, selector, *files):
        before = self.asked()
        x, y = self.ask(f"(() => {{ const e = document.querySelector({json.dumps(selector)}); e.scrollIntoView({{block: 'center'}});"
                        "const b = e.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()")
        data = {"items": [], "files": [os.path.abspath(f) for f in files], "dragOperationsMask": 1}
        for kind in ("dragEnter", "dragOver", "drop"):
            self.browser.of_page("Input.dispatchDragEvent", {"type": kind, "x": x, "y": y, "data": data})
        return self.answered(before)

    def press(self, key, code=None, text=None, modifiers=0):
        codes = {"Tab": 9, "Enter": 13, " ": 32, "ArrowRight": 39, "ArrowLeft": 37, "ArrowDown": 40}
        event = {"key": key, "code": code or key, "windowsVirtualKeyCode": codes.get(key, 0), "modifiers": modifiers}
        if text or key in ("Enter", " "):
            event["text"] = text or {"Enter": "\r", " ": " "}[key]
        self.browser.of_page("Input.dispatchKeyEvent", {"type": "keyDown", **event})
        self.browser.of_page("Input.dispatchKeyEvent", {"type": "keyUp", **event})

    def type(self, text):
        self.browser.of_page("Input.insertText", {"text": text})

    def fill(self, selector, value):
        """A field as if it had been filled; the answer that follows."""
        before = self.asked()
        self.put(selector, value)
        return self.answered(before)

    def put(self, selector, value):
        self.ask(f"(() => {{ const e = document.querySelector({json.dumps(selector)}); e.value = {json.dumps(value)};"
                 "e.dispatchEvent(new Event('input', {bubbles: true})); })()")

    def job(self, name):
        before = self.asked()
        self.ask(f"document.querySelector('input[name=job][value={name}]').click()")
        return self.answered(before)

    def clear(self):
        """No file in any field any more."""
        while self.ask("document.querySelectorAll('section:not([hidden]) .files li button[aria-label^=Remove]').length"):
            before = self.asked()
            self.ask("document.querySelector('section:not([hidden]) .files li button[aria-label^=Remove]').click()")
            self.answered(before)

    def save(self, selector):
        """The text that a button saves."""
        for name in os.listdir(self.saved.name):
            os.remove(os.path.join(self.saved.name, name))
        self.ask(f"document.querySelector({json.dumps(selector)}).click()")
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            names = [n for n in os.listdir(self.saved.name) if not n.endswith(".crdownload")]
            if names:
                with open(os.path.join(self.saved.name, names[0]), encoding="utf-8", newline="") as file:
                    return names[0], file.read()
            time.sleep(0.02)
        raise RuntimeError("the page: nothing was saved by " + selector)

    def names(self):
        """Every control of the accessibility tree: its role and name."""
        roles = {"button", "textbox", "combobox", "radio", "checkbox", "link", "listbox", "Iframe", "group", "region", "form", "DisclosureTriangle"}
        for node in self.browser.of_page("Accessibility.getFullAXTree")["nodes"]:
            role = node.get("role", {}).get("value")
            if role in roles and not node.get("ignored"):
                yield role, node.get("name", {}).get("value", "")

    def close(self):
        self.browser.close()
        self.saved.cleanup()
