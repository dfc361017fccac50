/**
 * The pages with a plan that stands still, on a store of their own, in a process of its own: for requests that lie. Says its
 * address and folder to the process that started it; asked anything, it says what it reported as its own mistakes.
 */
import { dirname } from 'node:path';
import { testServer } from '../pages/test-server.ts';

const server = await testServer();
process.on('message', () => {
  process.send?.({ reported: server.reported.map((error) => (error instanceof Error ? error.stack : String(error))) });
});
process.on('disconnect', () => {
  void server.close().then(() => process.exit(0));
});
process.send?.({ url: server.url, folder: dirname(server.kept.file) });
