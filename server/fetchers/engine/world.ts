/** What a fetch touches of the world, so that tests can hold it still. */
export interface World {
  /** As the platform's own, answers to redirects included. */
  readonly fetch: (address: string, init: RequestInit) => Promise<Response>;
  readonly nowEpochMs: () => number;
  /** From 0 up to, not including, 1. */
  readonly random: () => number;
  /** Resolves after `ms`, or at once when the signal is or becomes aborted. */
  readonly sleep: (ms: number, signal: AbortSignal) => Promise<void>;
}

export const realWorld: World = {
  // Looked up at each call: it may be replaced.
  fetch: (address, init) => fetch(address, init),
  nowEpochMs: () => Date.now(),
  random: () => Math.random(),
  sleep: (ms, signal) =>
    new Promise((resolve) => {
      if (signal.aborted) return resolve();
      const done = (): void => {
        clearTimeout(timer);
        signal.removeEventListener('abort', done);
        resolve();
      };
      const timer = setTimeout(done, ms);
      signal.addEventListener('abort', done);
    }),
};
