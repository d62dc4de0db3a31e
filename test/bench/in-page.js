/**
 * What runs inside the site's page before its own scripts: it keeps hold of the worker, so that the bench may ask it
 * as a page would, and of every long task.
 */
export function watchPage() {
  /** @type {Worker | null} */
  let worker = null;
  const post = Worker.prototype.postMessage;
  /** @type {string[]} */
  let fileIds = [];
  const keep = (/** @type {Worker} */ started) => {
    if (worker !== null) return;
    worker = started;
    worker.addEventListener('message', ({ data }) => {
      if (data.kind === 'state') fileIds = data.state.files.map((/** @type {{id: string}} */ { id }) => id);
    });
  };
  Worker.prototype.postMessage = function (/** @type {unknown[]} */ ...given) {
    keep(this);
    return Reflect.apply(post, this, given);
  };
  let nextId = -1;
  let longest = 0;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) longest = Math.max(longest, duration);
  }).observe({ type: 'longtask', buffered: true });

  const newest = (/** @type {string} */ name) => performance.getEntriesByName(name).at(-1)?.startTime ?? NaN;

  const bench = {
    /** Calls the worker; gives its result and the time it took. */
    ask(/** @type {string} */ call, /** @type {unknown} */ argument) {
      const id = nextId--;
      const start = performance.now();
      return new Promise((resolve, reject) => {
        const listen = (/** @type {MessageEvent} */ { data }) => {
          if (data.id !== id) return;
          worker?.removeEventListener('message', listen);
          if (data.kind === 'result') resolve({ result: data.result, ms: performance.now() - start });
          else reject(new Error(JSON.stringify(data)));
        };
        worker?.addEventListener('message', listen);
        worker?.postMessage({ id, call, argument, slot: null });
      });
    },
    /** The files in hand, in their order. */
    fileIds: () => fileIds,
    newest,
    first: (/** @type {string} */ name) => performance.getEntriesByName(name)[0]?.startTime ?? NaN,
    /** The longest task of the main thread since the last call. */
    longestTask() {
      const found = longest;
      longest = 0;
      return found;
    },
    /** Sets what stands after the hash and waits until all of the page is answered and shown. */
    async step(/** @type {string} */ hash) {
      performance.clearMarks('filter:answered');
      performance.clearMarks('filter:shown');
      const start = performance.now();
      performance.mark('filter:start');
      location.hash = hash;
      while (Number.isNaN(newest('filter:shown'))) await new Promise((resolve) => setTimeout(resolve, 1));
      return { answered: newest('filter:answered') - start, shown: newest('filter:shown') - start };
    },
    /** Sets what stands after the hash and waits until the studies of the page are answered too. */
    async studied(/** @type {string} */ hash) {
      performance.clearMarks('study:answered');
      const start = performance.now();
      location.hash = hash;
      while (Number.isNaN(newest('study:answered'))) await new Promise((resolve) => setTimeout(resolve, 5));
      return newest('study:answered') - start;
    }
  };
  Object.assign(window, { bench });
}
