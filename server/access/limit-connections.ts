import type { Server, Socket } from 'node:net';
import { isLoopbackAddress } from './bound-address.ts';
import { addressOf } from './socket-address.ts';

/** Connections at once of one address: a browser takes six. Programs of this machine may have as many as there are. */
const MOST_OF_ONE_COUNT = 32;
/** Connections at once of all addresses. */
const MOST_OF_ALL_COUNT = 256;

/** Closes connections above the limits as they come, so that a stranger with many of them leaves room for others. */
export function limitConnections(server: Server): void {
  server.maxConnections = MOST_OF_ALL_COUNT;
  const open = new Map<string, number>();
  server.on('connection', (socket: Socket) => {
    const address = addressOf(socket);
    if (isLoopbackAddress(address)) return;
    const count = (open.get(address) ?? 0) + 1;
    if (count > MOST_OF_ONE_COUNT) {
      socket.destroy();
      return;
    }
    open.set(address, count);
    socket.once('close', () => {
      const left = (open.get(address) ?? 1) - 1;
      if (left === 0) open.delete(address);
      else open.set(address, left);
    });
  });
}
