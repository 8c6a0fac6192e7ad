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

const namesIn = folder => command.FS.readdir(folder).filter(name => name !== "." && name !== "..");
const isFolder = path => command.FS.isDir(command.FS.stat(path).mode);

function emptyFolder(folder) {
  for (const path of namesIn(folder).map(name => folder + "/" + name)) {
    if (isFolder(path)) {
      emptyFolder(path);
      command.FS.rmdir(path);
    } else {
      command.FS.unlink(path);
    }
  }
}

/** Runs the command on a line of words; `files` are {name, bytes}. What it wrote comes back by name. */
function answer({ words, files }) {
  const { FS } = command;
  said.out.length = 0;
  said.err.length = 0;
  emptyFolder(filesFolder);
  if (FS.analyzePath(reportFile).exists) FS.unlink(reportFile);
  const given = new Set();
  for (const { name, bytes } of files) {
    const folder = filesFolder + "/" + name.split("/").slice(0, -1).join("/");
    if (!FS.analyzePath(folder).exists) FS.mkdir(folder);
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
  for (const name of namesIn(filesFolder)) {
    const path = filesFolder + "/" + name;
    if (!given.has(name) && !isFolder(path)) written[name] = FS.readFile(path, { encoding: "utf8" });
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
