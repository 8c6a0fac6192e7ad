// ---- Fields that HTML has none for: files with an order, viewers ----------------------------------------

const make = (tag, properties = {}, ...inside) => {
  const element = Object.assign(document.createElement(tag), properties);
  element.append(...inside);
  return element;
};

/** The name by which the command knows a file: one without a dot or a slash would be taken for a light's name. */
const wordOf = item => (item.generic || /[./]/.test(item.as) ? item.as : "./" + item.as);

/** A list of files, or of generic panels where the page adds them. */
class FileField {
  constructor(element, changed) {
    this.element = element;
    this.changed = changed;
    this.items = []; // {name, as, bytes} or {name, as, generic: true}; `as`: the name that the command is given
    this.many = "many" in element.dataset;
    this.label = element.dataset.label;
    const input = make("input", { type: "file", id: element.id + "-input", multiple: this.many });
    element.append(make("label", { htmlFor: input.id, textContent: this.label }));
    if (element.dataset.help) {
      const help = make("p", { className: "help", id: element.id + "-help", textContent: element.dataset.help });
      input.setAttribute("aria-describedby", help.id);
      element.append(help);
    }
    this.list = make("ul", { hidden: true });
    this.list.setAttribute("aria-label", this.label + ": chosen");
    element.append(input, this.list);
    this.input = input;
    input.addEventListener("change", async () => {
      await this.take([...input.files]);
      input.value = ""; // so that the same file can be chosen again once it has been measured anew
    });
    element.addEventListener("dragover", event => { event.preventDefault(); element.classList.add("over"); });
    element.addEventListener("dragleave", () => element.classList.remove("over"));
    element.addEventListener("drop", event => {
      event.preventDefault();
      event.stopPropagation();
      element.classList.remove("over");
      this.take([...event.dataTransfer.files]);
    });
  }

  async take(files) {
    for (const file of files) this.put({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) });
    if (files.length) this.shown();
  }

  /** In the place of one of the same name; a field for one file holds the last. */
  put(item) {
    item.as = item.name;
    const same = this.items.findIndex(one => one.name === item.name);
    if (!this.many) this.items = [item];
    else if (same >= 0) this.items[same] = item;
    else this.items.push(item);
  }

  shown() {
    this.list.replaceChildren(...this.items.map((item, i) => {
      const remove = make("button", { type: "button", textContent: "Remove" });
      remove.setAttribute("aria-label", "Remove " + item.name);
      remove.addEventListener("click", () => {
        this.items.splice(i, 1);
        this.shown();
        (this.list.querySelectorAll("li")[Math.min(i, this.items.length - 1)]?.querySelector("button:last-child") || this.input).focus();
      });
      const buttons = [remove];
      if (i > 0) {
        const first = make("button", { type: "button", textContent: "First" });
        first.setAttribute("aria-label", "Put " + item.name + " first");
        first.addEventListener("click", () => {
          this.items.unshift(...this.items.splice(i, 1));
          this.shown();
          this.list.querySelector("button").focus();
        });
        buttons.unshift(first);
      }
      return make("li", {}, make("span", { textContent: item.name + (item.generic ? " (generic)" : "") }), ...buttons);
    }));
    this.list.hidden = !this.items.length;
    this.changed();
  }

  words() {
    return this.items.map(wordOf);
  }
  files() {
    return this.items.filter(item => item.bytes).map(({ as, bytes }) => ({ name: as, bytes }));
  }
}

/** Rows of an age and a field each. */
class Viewers {
  constructor(list, changed) {
    this.list = list;
    this.changed = changed;
  }

  add() {
    const letter = String.fromCharCode(65 + this.list.children.length);
    const number = (name, most) => {
      const input = make("input", { inputMode: "decimal", autocomplete: "off", size: 5 });
      const label = make("label", {}, name, input);
      input.setAttribute("aria-label", `Viewer ${letter}: ${name}`);
      return [label, input];
    };
    const [age, input] = number("age");
    const [field] = number("degrees of view");
    const remove = make("button", { type: "button", textContent: "Remove" });
    remove.setAttribute("aria-label", `Remove viewer ${letter}`);
    const row = make("li", {}, make("div", {}, age, field, remove));
    remove.addEventListener("click", () => {
      row.remove();
      byId("add-viewer").focus();
      this.changed();
    });
    this.list.append(row);
    input.focus();
  }

  words() {
    return [...this.list.children].map(row => {
      const [age, field] = [...row.querySelectorAll("input")].map(input => input.value.trim());
      return age || field ? (age || "unknown") + (field ? ":" + field : "") : "";
    }).filter(Boolean);
  }
}
