// Listens on file 3 of a planning process: an octet raises the stop flag, the end of the file is the end of the server.
import { Socket } from 'node:net';
import { workerData } from 'node:worker_threads';

const gone = () => process.kill(process.pid, 'SIGKILL');
// Not a file stream: its read would wait in a thread of the system and keep the process from ending.
new Socket({ fd: 3, readable: true, writable: false })
  .on('data', () => Atomics.store(workerData, 0, 1))
  .on('error', gone)
  .on('end', gone);
