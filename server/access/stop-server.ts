import type { Server } from 'node:http';

/** What is under way has so long to end when the program is ended [ms]. */
const GRACE_MS = 4000;
const LOOK_MS = 50;

/**
 * Ends a server: nothing new is taken, what was begun is answered, and what is not answered after a few seconds is cut.
 * Asked a second time it cuts at once.
 *
 * @returns what to call when the program is asked to end
 */
export function stopping(server: Server, graceMs = GRACE_MS): () => void {
  let isAsked = false;
  return () => {
    if (isAsked) return server.closeAllConnections();
    isAsked = true;
    // Lines are kept open after their answer: they are closed as they fall silent.
    const looking = setInterval(() => server.closeIdleConnections(), LOOK_MS);
    const cutting = setTimeout(() => server.closeAllConnections(), graceMs);
    server.close(() => {
      clearInterval(looking);
      clearTimeout(cutting);
    });
    server.closeIdleConnections();
  };
}
