"use strict";
// In the worker: the command, the files it is given, and what it says. makeSamelight() stands behind this.

const filesFolder = "/files"; // what was dropped, and what the command writes beside it
const reportFile = "/report.html";

const said = { out: [], err: [] };
let command = null;

const take = list => code => {
  if (code !== null) list.push(code);
};
const textOf = bytes => new TextDecoder().decode(Uint8Array.from(bytes));

function emptyFolder(FS) {
  for (const name of FS.readdir(filesFolder)) {
    if (name !== "." && name !== "..") FS.unlink(filesFolder + "/" + name);
  }
}

/** Runs the command on a line of words; `files` are {name, bytes}. What it wrote comes back by name. */
function answer({ words, files }) {
  const { FS } = command;
  said.out.length = 0;
  said.err.length = 0;
  emptyFolder(FS);
  if (FS.analyzePath(reportFile).exists) FS.unlink(reportFile);
  const given = new Set();
  for (const { name, bytes } of files) {
    FS.writeFile(filesFolder + "/" + name, bytes);
    given.add(name);
  }
  const stack = command.stackSave();
  let code = 0;
  try {
    code = command.callMain(words);
  } finally {
    command.stackRestore(stack);
  }
  const written = {};
  for (const name of FS.readdir(filesFolder)) {
    if (name !== "." && name !== ".." && !given.has(name)) written[name] = FS.readFile(filesFolder + "/" + name, { encoding: "utf8" });
  }
  const report = FS.analyzePath(reportFile).exists ? FS.readFile(reportFile, { encoding: "utf8" }) : "";
  return { code, out: textOf(said.out), err: textOf(said.err), report, written };
}

async function start(module) {
  const options = {
    noInitialRun: true,
    // Neither is a terminal; nothing comes from standard input.
    preRun: [() => options.FS.init(() => null, take(said.out), take(said.err))],
    instantiateWasm: (imports, made) => {
      WebAssembly.instantiate(module, imports).then(instance => made(instance, module));
      return {};
    },
  };
  command = await makeSamelight(options);
  command.FS.mkdir(filesFolder);
  command.FS.chdir(filesFolder);
}

onmessage = async ({ data }) => {
  try {
    if (data.module) {
      await start(data.module);
      postMessage({ ready: true });
    } else {
      postMessage({ id: data.id, answer: answer(data) });
    }
  } catch (error) {
    postMessage({ id: data.id, failure: String(error) });
  }
};
