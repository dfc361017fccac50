/** Who may come in, and how much of it: the only door of this folder. */
export { drawAccessKey, type KeyDigest, keyDigest } from './access-key.ts';
export { type BoundAddress, boundAddress, isLoopbackAddress } from './bound-address.ts';
export { type Access, keepAccess, type NotRight } from './keep-access.ts';
export { keyMissing, readAccessKey } from './key-file.ts';
export { limitConnections } from './limit-connections.ts';
export { keepRequestRate } from './request-rate.ts';
export { MOST_AGE_MS } from './sessions.ts';
export { cutSlowBodies } from './slow-bodies.ts';
export { addressOf } from './socket-address.ts';
export { stopping } from './stop-server.ts';
