// ---- The command, in a worker: a line of words and files in, what it says and writes out ----------------

const byId = id => document.getElementById(id);

/** What assemble.py packed into an element. */
function unpacked(id) {
  const packed = Uint8Array.from(atob(byId(id).textContent.trim()), c => c.charCodeAt(0));
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip")));
}

const engine = (() => {
  let compiled = null;
  let worker = null;
  let number = 0;
  let waiting = null; // {resolve, reject} of the one question that is being answered

  async function compile() {
    return WebAssembly.compile(await unpacked("command-packed").arrayBuffer());
  }

  async function start() {
    compiled ??= compile();
    const module = await compiled;
    const address = URL.createObjectURL(new Blob([byId("worker-text").textContent], { type: "text/javascript" }));
    const made = new Worker(address);
    await new Promise((ready, failed) => {
      made.onmessage = ({ data }) => (data.ready ? ready() : failed(new Error(data.failure)));
      made.onerror = event => failed(new Error(event.message));
      made.postMessage({ module });
    });
    URL.revokeObjectURL(address);
    made.onmessage = ({ data }) => {
      const { resolve, reject } = waiting;
      waiting = null;
      if (data.answer) return resolve(data.answer);
      stop(); // what failed so isn't asked again
      reject(new Error(data.failure));
    };
    return made;
  }

  function stop() {
    worker?.then(one => one.terminate());
    worker = null;
  }

  /** Whatever is being worked out is wanted no more. */
  function giveUp() {
    ++number;
    if (waiting) stop();
    waiting = null;
  }

  /** The answer to a line of words. One that is still being worked out is given up: its promise is left as it is. */
  async function ask(words, files) {
    giveUp();
    const own = number;
    worker ??= start();
    const asked = await worker;
    if (own !== number) return new Promise(() => {});
    return new Promise((resolve, reject) => {
      waiting = { resolve, reject };
      asked.postMessage({ id: own, words, files });
    });
  }

  return { ask, giveUp };
})();
