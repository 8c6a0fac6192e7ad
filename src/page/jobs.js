// ---- What is asked: the words of a command line from the fields of a job --------------------------------

/** Words as a shell parts them: by spaces, but for those in quotation marks. */
const wordsOf = text => [...text.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(([, a, b, c]) => a ?? b ?? c);

const option = (name, value) => (value.startsWith("-") ? [`${name}=${value}`] : [name, value]);

const stemOf = name => name.replace(/\.[^.]*$/, "");

class Question {
  /** @param fields  the page's FileFields by their ids */
  constructor(fields, viewers) {
    this.fields = fields;
    this.viewers = viewers;
    this.kept = { whites: [], white: "", correction: null }; // answers that a later job may take: see answer.js
  }

  section() {
    return document.querySelector(`section[data-job="${this.job()}"]`);
  }
  job() {
    return document.querySelector("input[name=job]:checked").value;
  }
  main() {
    return this.fields[this.section().querySelector(".files[data-main]").id];
  }

  /** {words, files}, or nothing where there is nothing to ask yet. */
  asked() {
    const main = this.main();
    const fieldsHere = [...this.section().querySelectorAll(".files")].map(element => this.fields[element.id]).filter(f => !f.element.hidden);
    this.nameApart(fieldsHere);
    if (this.job() === "line") {
      const words = wordsOf(byId("line").value);
      return words.length ? { words, files: main.files() } : null;
    }
    if (!main.items.length) return null;
    const own = { white: () => this.white(), meter: () => this.meter(), check: () => this.check() }[this.job()]();
    const options = [...this.plain("data-option", this.section()), ...own.options, ...this.plain("data-report", document)];
    const positionals = main.words();
    if (positionals.some(word => word.startsWith("-"))) positionals.unshift("--");
    return {
      words: [...own.command, ...options, ...wordsOf(byId("further").value), "--report", "/report.html", "--json", ...positionals],
      files: [...fieldsHere.flatMap(field => field.files()), ...(own.files ?? [])],
    };
  }

  /** Files of one name come from several folders: those of a later field are put into a folder called as the field. */
  nameApart(fieldsHere) {
    const owners = new Map();
    for (const field of fieldsHere) {
      for (const item of field.items) {
        const owner = owners.get(item.name) ?? field;
        owners.set(item.name, owner);
        item.as = owner === field ? item.name : field.element.id + "/" + item.name;
      }
    }
  }

  /** Options that stand in a field each. */
  plain(attribute, within) {
    return [...within.querySelectorAll(`[${attribute}]`)].flatMap(element => {
      const name = element.getAttribute(attribute);
      if (element.classList.contains("files")) return this.fields[element.id].words().flatMap(word => option(name, word));
      const value = element.value.trim();
      return value ? option(name, value) : [];
    });
  }

  white() {
    const options = [...this.reference(), ...this.viewers.words().flatMap(word => option("--viewer", word))];
    for (const box of document.querySelectorAll("#observers input:checked")) options.push("--observer", box.value);
    return { command: ["white"], options };
  }

  reference() {
    const light = byId("reference").value;
    if (light === "*typed") {
      const typed = byId("reference-typed").value.trim();
      return typed ? option("--reference", typed) : [];
    }
    const name = light === "*file" ? this.fields["reference-file"].words()[0] : light;
    if (!name) return [];
    const at = takesWhite(light) ? byId("reference-white").value.replace(/\s+/g, "") : "";
    return option("--reference", name + (at ? "@" + at : ""));
  }

  meter() {
    const names = [...this.fields.readings.items, ...this.fields["meter-panel"].items].map(item => item.name);
    let kept = stemOf(names[0]) + ".correction.json";
    while (names.includes(kept)) kept = "new-" + kept;
    return { command: ["meter", "fit"], options: option("--write", kept) };
  }

  check() {
    const options = [];
    const files = [];
    const take = (name, file, text, which) => {
      files.push({ name: file, bytes: new TextEncoder().encode(text) });
      options.push(...option(name, file + which));
    };
    const chosen = byId("chosen-white").value;
    const typed = byId("chosen-typed").value.replace(/\s+/g, "");
    if (chosen) take("--white", "white-worked-out-here.json", this.kept.white, this.kept.whites.length > 1 ? "#" + chosen : "");
    else if (typed) options.push(...option("--white", typed));
    const correction = byId("correction").value;
    if (correction && !this.fields["correction-file"].items.length) take("--correction", correction, this.kept.correction.text, "");
    return { command: ["check"], options, files };
  }
}

/** Whether a reference's white can be set: an illuminant's can't. */
const takesWhite = light => light !== "*typed" && !/^(A|C|E|D\d\d)$/.test(light);

/** The words as they are typed before the files: without what the page adds for itself. */
function lineOf(words) {
  const own = words.filter((word, i) => word !== "--json" && word !== "--report" && words[i - 1] !== "--report");
  const quoted = own.map(word => (/^[\w./:,=@#%+-]+$/.test(word) ? word : `"${word.replace(/(["\\$`])/g, "\\$1")}"`));
  return ["samelight", ...quoted].join(" ");
}
