// ---- What is shown: the report, what was wrong, what can be saved ---------------------------------------

function save(name, text, type) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = make("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

class Answer {
  constructor() {
    this.last = null;
    this.count = 0;
    this.frame = byId("report");
    this.frame.addEventListener("load", () => this.loaded());
    byId("save-report").addEventListener("click", () => save(this.last.name + ".html", this.last.report, "text/html"));
    byId("save-json").addEventListener("click", () => save(this.last.name + ".json", this.last.out, "application/json"));
    byId("print").addEventListener("click", () => this.frame.contentWindow.print());
  }

  say(text) {
    byId("status").textContent = text;
  }
  working() {
    byId("answer").classList.add("working");
    this.say("Working it out \u2026");
  }
  /** All that is to be seen is there. The number of answers is for whoever waits for one. */
  done(text) {
    byId("answer").classList.remove("working");
    this.say(text);
    byId("answer").dataset.count = ++this.count;
  }
  /** Nothing is asked: nothing is shown but what there is to do. */
  none(text) {
    this.last = null;
    this.clear();
    this.done(text);
  }
  clear() {
    byId("errors").replaceChildren();
    for (const id of ["saves", "unsaved", "report", "text-frame", "same"]) byId(id).hidden = true;
  }

  show(asked, answer) {
    this.clear();
    const lines = answer.err.split("\n").filter(Boolean).map(line => line.replace(/^samelight: /, ""));
    byId("errors").replaceChildren(...lines.map(line => make("li", { textContent: line })));
    this.last = { ...answer, name: asked.name };
    byId("same-line").textContent = lineOf(asked.words);
    byId("same").hidden = false;
    const json = answer.out.startsWith("{");
    const text = answer.report || json ? "" : answer.out;
    byId("text").textContent = text;
    byId("text-frame").hidden = !text;
    this.offer(answer, json && answer.code === 0 || Boolean(answer.report));
    if (answer.report) {
      this.render();
    } else {
      this.done(answer.code === 0 ? "Answered." : "No answer, because:");
    }
  }

  offer(answer, json) {
    byId("save-report").hidden = byId("print").hidden = !answer.report;
    byId("save-json").hidden = !json;
    byId("save-written").replaceChildren(...Object.entries(answer.written).map(([name, text]) => {
      const button = make("button", { type: "button", textContent: (name.endsWith(".correction.json") ? "Save correction " : "Save ") + name });
      button.addEventListener("click", () => save(name, text, "text/plain"));
      return button;
    }));
    byId("unsaved").hidden = !Object.keys(answer.written).some(name => name.endsWith(".correction.json"));
    byId("saves").hidden = !answer.report && !json && !Object.keys(answer.written).length;
  }

  /** The report as it is saved; shown in the page's scheme where that isn't the system's. */
  render() {
    const scheme = byId("scheme").value;
    const inScheme = !scheme ? this.last.report : this.last.report
      .replace("color-scheme: light dark", "color-scheme: " + scheme)
      .replaceAll("(prefers-color-scheme: dark)", scheme === "dark" ? "all" : "not all");
    const open = this.frame.contentDocument;
    this.opened = open ? [...open.querySelectorAll("details[open]")].map(one => one.parentElement.id) : [];
    this.frame.hidden = false;
    this.frame.srcdoc = inScheme;
  }

  loaded() {
    const page = this.frame.contentDocument;
    if (!page || !page.body || !this.last?.report) return;
    for (const id of this.opened ?? []) {
      page.getElementById(id)?.querySelector(":scope > details")?.setAttribute("open", "");
    }
    // As high as the report is, so that there is one thing to scroll.
    const fit = () => { this.frame.style.height = Math.ceil(page.documentElement.getBoundingClientRect().height) + 4 + "px"; };
    new ResizeObserver(fit).observe(page.documentElement);
    fit();
    const verdicts = [...page.querySelectorAll(".verdict")].map(one => one.textContent.trim());
    this.done((page.querySelector("h1")?.textContent ?? "Answered") + ". " + (verdicts.length === 1 ? verdicts[0] : ""));
  }
}
