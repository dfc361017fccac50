import { createHash, randomBytes } from 'node:crypto';

const HOUR_MS = 3_600_000;
/** A session nobody used for so long is over: a night asleep and a day at sea fit into it. */
export const MOST_IDLE_MS = 24 * HOUR_MS;
/** A session is over after so long, however much it was used. */
export const MOST_AGE_MS = 7 * 24 * HOUR_MS;
/** More browsers than a crew has; the one unused longest goes. */
export const MOST_SESSIONS_COUNT = 32;
/** 256 bits; OWASP ASVS 5.0, V7.2.3 wants 128. */
const ID_OCTETS = 32;

interface Session {
  readonly begunMs: number;
  usedMs: number;
}

/** Sessions of browsers that gave the key, in memory: a restart ends them all. */
export interface Sessions {
  /** A new one; its id is known to nobody else, and never an id that came from outside. */
  readonly begin: () => string;
  /** Whether it goes on; being asked counts as being used. */
  readonly isOpen: (id: string) => boolean;
  readonly end: (id: string) => void;
}

/** @param nowMs a clock that is never set, unlike the boat's */
export function keepSessions(nowMs: () => number): Sessions {
  /** By the hash of their ids, so that looking one up says nothing of how much of an id was right. In order of use. */
  const open = new Map<string, Session>();
  const keyOf = (id: string): string => createHash('sha256').update(id).digest('base64');
  const isOver = ({ begunMs, usedMs }: Session, atMs: number): boolean =>
    atMs - usedMs > MOST_IDLE_MS || atMs - begunMs > MOST_AGE_MS;

  const makeRoom = (): void => {
    for (const [key, session] of open) if (isOver(session, nowMs())) open.delete(key);
    const [first] = open.keys();
    if (first !== undefined && open.size >= MOST_SESSIONS_COUNT) open.delete(first);
  };

  return {
    begin: () => {
      makeRoom();
      const id = randomBytes(ID_OCTETS).toString('base64url');
      const atMs = nowMs();
      open.set(keyOf(id), { begunMs: atMs, usedMs: atMs });
      return id;
    },
    isOpen: (id) => {
      const key = keyOf(id);
      const session = open.get(key);
      if (session === undefined) return false;
      open.delete(key);
      if (isOver(session, nowMs())) return false;
      session.usedMs = nowMs();
      open.set(key, session);
      return true;
    },
    end: (id) => void open.delete(keyOf(id)),
  };
}
