import { isSameKey, type KeyDigest, keyDigest } from './access-key.ts';
import { countAttempts } from './attempts.ts';
import { keepSessions } from './sessions.ts';

/** While an address waits its key is not looked at, so that waiting says nothing of it. */
export type NotRight = { readonly kind: 'wrong' } | { readonly kind: 'wait'; readonly waitMs: number };

/** Who may come in: whoever has the key, and browsers that gave it. */
export interface Access {
  /** @param address of the other end of the line */
  readonly tryKey: (key: string, address: string) => NotRight | { readonly kind: 'right' };
  /** The same, and a session where it is right. */
  readonly signIn: (key: string, address: string) => NotRight | { readonly kind: 'in'; readonly sessionId: string };
  /** Whether a session goes on; being asked counts as being used. */
  readonly isOpen: (sessionId: string) => boolean;
  readonly signOut: (sessionId: string) => void;
}

interface Options {
  readonly key: KeyDigest;
  /** A clock that is never set [ms]. */
  readonly nowMs: () => number;
  /** Told of every wrong key that was looked at and of everyone who came in; never a key or a session. */
  readonly print: (line: string) => void;
}

export function keepAccess({ key, nowMs, print }: Options): Access {
  const attempts = countAttempts(nowMs);
  const sessions = keepSessions(nowMs);
  const tryKey: Access['tryKey'] = (given, address) => {
    const waitMs = attempts.waitMs(address);
    if (waitMs > 0) return { kind: 'wait', waitMs };
    if (isSameKey(keyDigest(given), key)) {
      attempts.succeeded(address);
      return { kind: 'right' };
    }
    print(`Wrong access key from ${address}: ${attempts.failed(address)} in a row.`);
    return { kind: 'wrong' };
  };
  return {
    tryKey,
    signIn: (given, address) => {
      const tried = tryKey(given, address);
      if (tried.kind !== 'right') return tried;
      print(`Signed in: a browser at ${address}.`);
      return { kind: 'in', sessionId: sessions.begin() };
    },
    isOpen: sessions.isOpen,
    signOut: sessions.end,
  };
}
