"""A headless Chromium, spoken to through two pipes: a page is opened at a width and in a scheme, and asked about what it shows."""
import json
import os
import shutil
import subprocess
import tempfile


def find_browser():
    """The program, or nothing where there is none."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


class Browser:
    """Commands of the DevTools protocol, each a line of JSON ended by a zero byte (--remote-debugging-pipe)."""

    def __init__(self, program):
        self.folder = tempfile.TemporaryDirectory(prefix="samelight-browser-", ignore_cleanup_errors=True)
        to_browser, self.write_end = os.pipe()
        self.read_end, from_browser = os.pipe()

        def give_pipes():
            # Above 4 first, so that neither is lost where the other is put.
            read, write = os.dup(to_browser), os.dup(from_browser)
            os.dup2(read, 3)
            os.dup2(write, 4)

        self.process = subprocess.Popen(
            [program, "--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--disable-dev-shm-usage",
             "--remote-debugging-pipe", "--no-first-run", f"--user-data-dir={self.folder.name}", "about:blank"],
            close_fds=False, preexec_fn=give_pipes, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.number = 0
        self.waiting = b""
        self.events = []
        target = self.call("Target.createTarget", {"url": "about:blank"})["targetId"]
        self.session = self.call("Target.attachToTarget", {"targetId": target, "flatten": True})["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.of_page(domain + ".enable")

    def message(self):
        while b"\0" not in self.waiting:
            more = os.read(self.read_end, 1 << 20)
            if not more:
                raise RuntimeError("the browser ended")
            self.waiting += more
        line, self.waiting = self.waiting.split(b"\0", 1)
        return json.loads(line)

    def call(self, method, parameters=None, session=None):
        self.number += 1
        asked = {"id": self.number, "method": method, "params": parameters or {}}
        if session:
            asked["sessionId"] = session
        os.write(self.write_end, json.dumps(asked).encode() + b"\0")
        while True:
            said = self.message()
            if said.get("id") == self.number:
                if "error" in said:
                    raise RuntimeError(f"{method}: {said['error']}")
                return said["result"]
            self.events.append(said)

    def of_page(self, method, parameters=None):
        return self.call(method, parameters, self.session)

    def open(self, path, width, scheme):
        """The page at this width in pixels, "light" or "dark"; what happened meanwhile."""
        self.of_page("Emulation.setDeviceMetricsOverride", {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500})
        self.of_page("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})
        self.events = []
        self.of_page("Page.navigate", {"url": "file://" + os.path.abspath(path)})
        while not any(e.get("method") == "Page.loadEventFired" for e in self.events):
            self.events.append(self.message())
        self.ask("1")  # what the page says on loading has come by then
        return self.events

    def ask(self, expression):
        """What an expression of JavaScript gives in the page."""
        said = self.of_page("Runtime.evaluate", {"expression": expression, "returnByValue": True})
        if "exceptionDetails" in said:
            raise RuntimeError(str(said["exceptionDetails"])[:500])
        return said["result"].get("value")

    def close(self):
        self.process.terminate()
        self.process.wait()
        os.close(self.read_end)
        os.close(self.write_end)
        self.folder.cleanup()
