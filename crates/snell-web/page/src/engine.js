// Who asks the module: questions stand in a queue, of each asker only the latest,
// and a module that died or does not come back is replaced.

const PATIENCE = { look: 2000, judge: 5000, drift: 20000, draw: 20000, fit: 60000, card: 60000,
  findings: 10000, look_around: 10000, judge_around: 20000, ways: 20000, places: 20000, rename: 20000 };
const MOST_FAILED_STARTS = 3;

/** Some servers send the module by a type that no browser compiles while it comes in. */
async function fetched(address) {
  const answer = await fetch(address);
  const streams = answer.ok && answer.headers.get('content-type')?.startsWith('application/wasm');
  return streams ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
}

/** How a worker is made and where the module comes from; a page in one file says otherwise. */
export const source = {
  worker: () => new Worker(new URL('./worker.js', import.meta.url), { type: 'module' }),
  module: () => fetched(new URL('./snell_bg.wasm', import.meta.url)),
};

let module;

/** The module, which is compiled once for all workers. */
function compiled() {
  module ??= source.module().catch((error) => {
    module = undefined;
    throw error;
  });
  return module;
}

export class Engine {
  #files = new Map();
  #sent = new Map();
  #queue = new Map();
  #running;
  #worker;
  #ready = false;
  #number = 0;
  #failedStarts = 0;
  /** How many modules were replaced. */
  replaced = 0;

  /** A text by its name, or `null` where there is none any more. */
  put(name, text) {
    this.#files.set(name, text);
  }

  /**
   * Asks; resolves to the answer, or to `undefined` where the same asker asked again.
   * @param {string} asker of whom only the latest question counts
   */
  ask(asker, ask, ...args) {
    this.#queue.get(asker)?.resolve(undefined);
    return new Promise((resolve, reject) => {
      // Behind all others: nobody who asks often keeps others waiting.
      this.#queue.delete(asker);
      this.#queue.set(asker, { ask, args, resolve, reject });
      this.#next();
    });
  }

  #start() {
    this.#ready = false;
    this.#sent.clear();
    try {
      this.#worker = source.worker();
    } catch (error) {
      return this.#failed(String(error));
    }
    const worker = this.#worker;
    worker.onmessage = ({ data }) => worker === this.#worker && this.#told(data);
    worker.onerror = (event) => {
      event.preventDefault();
      if (worker !== this.#worker) return;
      if (this.#ready) this.#replace('the module stopped');
      else this.#failed(event.message ?? 'the worker did not start');
    };
    compiled().then((start) => worker === this.#worker && worker.postMessage({ start }),
      (error) => worker === this.#worker && this.#failed(String(error)));
  }

  /** Without a module what stands in the page stays. */
  #failed(why) {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#failedStarts += 1;
    const waiting = [...this.#queue.values()];
    this.#queue.clear();
    for (const { reject } of waiting) reject(new Error(why));
  }

  #next() {
    if (this.#running || this.#queue.size === 0) return;
    if (!this.#worker) {
      if (this.#failedStarts >= MOST_FAILED_STARTS) return this.#failed('the module does not start');
      return this.#start();
    }
    if (!this.#ready) return;
    const [asker, question] = this.#queue.entries().next().value;
    this.#queue.delete(asker);
    const number = (this.#number += 1);
    const files = [...this.#files].filter(([name, text]) => this.#sent.get(name) !== text);
    for (const [name, text] of files) this.#sent.set(name, text);
    const patience = PATIENCE[question.ask] ?? PATIENCE.look;
    const timer = setTimeout(() => this.#replace('it took too long'), patience);
    this.#running = { ...question, number, timer };
    this.#worker.postMessage({ number, files, ask: question.ask, args: question.args });
  }

  #told(data) {
    if (data.ready) {
      this.#ready = true;
      this.#failedStarts = 0;
      return this.#next();
    }
    if (data.failed) return this.#failed(data.failed);
    if (data.number !== this.#running?.number) return;
    if (data.dead) return this.#replace(data.refused);
    const { resolve, reject, timer } = this.#running;
    clearTimeout(timer);
    this.#running = undefined;
    if ('refused' in data) reject(new Error(data.refused));
    else resolve(data.answer);
    this.#next();
  }

  /** Ends the module, and starts another at once; the question that ended it is not asked again. */
  #replace(why) {
    this.replaced += 1;
    this.#worker?.terminate();
    const running = this.#running;
    this.#running = undefined;
    clearTimeout(running?.timer);
    this.#start();
    running?.reject(new Error(why));
  }
}
