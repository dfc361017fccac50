/** A server that does nothing but answer, for what a request costs at least: `node idle-server.mjs`. Prints its address. */
import { createServer } from 'node:http';

const PAGE = `<!doctype html><title>nothing</title><p>${'nothing here. '.repeat(1000)}`;

const server = createServer((_, response) => {
  response.writeHead(404, { 'Content-Type': 'text/html' });
  response.end(PAGE);
});
server.listen(0, '127.0.0.1', () => console.log(`http://127.0.0.1:${server.address().port}`));
process.once('SIGTERM', () => {
  server.close();
  server.closeAllConnections();
});
