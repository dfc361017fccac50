import type { Request } from 'express';

/** Of a browser where a key is asked for: it has not given it, or it is in. */
export type Door = 'closed' | 'open';

const doors = new WeakMap<Request, Door | null>();

export const setDoor = (request: Request, door: Door | null): void => void doors.set(request, door);

/** null: no key is asked for, or a program gave it. */
export const doorOf = (request: Request): Door | null => doors.get(request) ?? null;
