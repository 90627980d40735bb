// A thread for vitest that stays from run to run, with the program's modules in it. To start one, and to read everything
// anew, takes longer than the tests of one fault; the program keeps no state between calls, so nothing is lost by it.
import { resolve } from 'node:path';
import { Worker } from 'node:worker_threads';

/** One for all runs: vitest asks for a new worker each time, and is given this one again. */
let thread = null;

class KeptThread {
  name = 'kept';
  #entry;
  #config;
  #listeners = [];

  constructor({ distPath }) {
    this.#entry = resolve(distPath, 'workers/threads.js');
  }

  start() {
    this.isFirst = thread === null;
    thread ??= new Worker(this.#entry);
  }

  send(message) {
    if (message.type === 'start') {
      // The thread reads its configuration at its start alone; the pattern of test names comes with each run.
      this.#config = message.context.config;
      if (!this.isFirst) return this.#answer('started');
    }
    if (message.type === 'stop') return this.#answer('stopped');
    if (message.type === 'run') message.context.config = this.#config;
    thread.postMessage(message);
  }

  #answer(type) {
    setImmediate(() => {
      for (const [event, listener] of this.#listeners)
        if (event === 'message') listener({ type, __vitest_worker_response__: true });
    });
  }

  on(event, listener) {
    this.#listeners.push([event, listener]);
    thread.on(event, listener);
  }

  off(event, listener) {
    this.#listeners = this.#listeners.filter(([e, l]) => e !== event || l !== listener);
    thread.off(event, listener);
  }

  stop() {
    for (const [event, listener] of this.#listeners) thread.off(event, listener);
    this.#listeners = [];
    thread.unref();
  }

  deserialize(data) {
    return data;
  }
}

/** Plugin for the configuration of vitest. */
export const keptThread = {
  name: 'kept-thread',
  configureVitest({ project }) {
    project.config.pool = 'kept';
    project.config.poolRunner = { name: 'kept', createPoolWorker: (options) => new KeptThread(options) };
  },
};
