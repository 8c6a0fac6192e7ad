// ---- The page: fields, lists, when to ask ---------------------------------------------------------------

const pause_ms = 250; // of typing, before it is answered

let timer = 0;
const fields = {};
for (const element of document.querySelectorAll(".files")) fields[element.id] = new FileField(element, () => askSoon(0));
const viewers = new Viewers(byId("viewer-rows"), () => askSoon());
const question = new Question(fields, viewers);
const answer = new Answer();

const nothingYet = {
  white: "Choose measurement files, or add a generic panel.",
  meter: "Choose the readings of both instruments.",
  check: "Choose the readings of the patches.",
  line: "Type a command and choose its files.",
};

function askSoon(wait = pause_ms) {
  clearTimeout(timer);
  if (question.job() === "line") return; // what is typed there is asked when it is complete
  timer = setTimeout(ask, wait);
}

async function ask() {
  clearTimeout(timer);
  const job = question.job();
  const asked = question.asked();
  if (!asked) return answer.none(nothingYet[job]);
  answer.working();
  try {
    await ready; // the lists are asked for first, and a question gives up the one before it
    if (job === "line") asked.words = await withReport(asked.words);
    asked.name = job === "line" ? asked.words[0] : job;
    const said = await engine.ask(asked.words, asked.files);
    keep(job, said);
    answer.show(asked, said);
  } catch (error) {
    answer.none("The command ended without an answer: " + error.message);
  }
}

/** A command line of anybody's with the report and JSON, where that command makes them. */
async function withReport(words) {
  const command = words.slice(0, words[0] === "meter" ? 2 : 1);
  const { out } = await engine.ask([...command, "--help"], []);
  const first = words.length > command.length ? words.slice(command.length) : [];
  if (/^\s+--report /m.test(out) && !words.includes("--report") && !words.includes("--json")) {
    return [...command, "--report", "/report.html", "--json", ...first];
  }
  return words;
}

/** What a later job may take: the white for the proof, the meter's correction for its readings. */
function keep(job, said) {
  if (job === "white" && said.report) {
    question.kept.white = said.out;
    question.kept.whites = JSON.parse(said.out).panels.map(panel => panel.name);
    choices("chosen-white", question.kept.whites.map(name => [name, "worked out here: " + name]));
  }
  const written = Object.keys(said.written)[0];
  if (job === "meter" && written) {
    question.kept.correction = { text: said.written[written] };
    choices("correction", [[written, "made here: " + written]]);
  }
}

/** Behind the first choice, which stays. */
function choices(id, all) {
  const select = byId(id);
  const before = select.value;
  select.replaceChildren(select.options[0], ...all.map(([value, text]) => new Option(text, value)));
  select.value = all.some(([value]) => value === before) ? before : "";
}

// ---- The options' names beside their fields, since the answers' words name them

for (const element of document.querySelectorAll("[data-option], [data-report], [data-names]")) {
  const label = element.dataset.names ? element : element.querySelector("label") ?? document.querySelector(`label[for="${element.id}"]`);
  const name = make("code", { textContent: element.dataset.names ?? element.dataset.option ?? element.dataset.report });
  name.setAttribute("aria-hidden", "true");
  label.append(" ", name);
}

// ---- What is shown of the fields depends on others

function arrange() {
  const job = question.job();
  for (const section of document.querySelectorAll("section[data-job]")) section.hidden = section.dataset.job !== job;
  const light = byId("reference").value;
  byId("reference-white-row").hidden = !takesWhite(light);
  byId("reference-typed-row").hidden = light !== "*typed";
  byId("reference-file").hidden = light !== "*file";
  byId("chosen-typed-row").hidden = byId("chosen-white").value !== "";
  byId("further-row").hidden = job === "line";
}

/** Lists that the command itself has. */
async function fill() {
  const list = async (command, key) => JSON.parse((await engine.ask([command, "--json"], [])).out)[key];
  const models = await list("panel", "panels");
  for (const select of document.querySelectorAll("[data-models]")) select.append(...models.map(m => new Option(m.title, m.name)));
  const reference = byId("reference");
  reference.prepend(...models.map(m => new Option(m.title, m.name)), ...["D50", "D55", "D65", "D75", "A", "C", "E"].map(name => new Option("CIE illuminant " + name, name)));
  reference.value = "crt";
  for (const { id, title } of await list("observer", "observers")) {
    byId("observers").append(make("label", {}, make("input", { type: "checkbox", value: id }), " " + title));
  }
}

byId("question").addEventListener("submit", event => { event.preventDefault(); ask(); });
byId("question").addEventListener("input", event => {
  if (event.target.type === "file" || event.target.id === "generic") return;
  arrange();
  askSoon(event.target.name === "job" ? 0 : pause_ms);
  if (event.target.name === "job" && question.job() === "line") {
    engine.giveUp();
    answer.none(nothingYet.line);
  }
});
byId("add-generic").addEventListener("click", () => {
  fields.displays.put({ name: byId("generic").value, generic: true });
  fields.displays.shown();
});
byId("add-viewer").addEventListener("click", () => viewers.add());
byId("scheme").addEventListener("change", event => {
  document.documentElement.dataset.scheme = event.target.value;
  if (answer.last?.report) answer.render();
});
document.addEventListener("dragover", event => event.preventDefault());
document.addEventListener("drop", event => {
  event.preventDefault();
  question.main().take([...event.dataTransfer.files]);
});

byId("licences").addEventListener("toggle", async event => {
  const text = event.target.querySelector("pre");
  if (!text.textContent) text.textContent = await unpacked("licences-packed").text();
});

arrange();
answer.say("Getting ready \u2026");
const ready = fill();
ready.then(() => { arrange(); askSoon(0); }, error => answer.none("This browser can't run the page: " + error.message));
