// One worker with one module. It answers one question at a time; who asks waits.
import init, { Rigs } from './snell.js';

let rigs;

async function start(module) {
  await init({ module_or_path: module });
  rigs = new Rigs();
}

function answer({ number, files, ask, args }) {
  for (const [name, text] of files) {
    if (text === null) rigs.remove(name);
    else rigs.put(name, text);
  }
  try {
    return { number, answer: rigs[ask](...args) };
  } catch (error) {
    // After a trap the module answers nothing any more.
    const dead = error instanceof WebAssembly.RuntimeError;
    return { number, refused: String(error.message ?? error), dead };
  }
}

self.onmessage = async ({ data }) => {
  if ('start' in data) {
    try {
      await start(data.start);
      self.postMessage({ ready: true });
    } catch (error) {
      self.postMessage({ failed: String(error) });
    }
    return;
  }
  self.postMessage(answer(data));
};
