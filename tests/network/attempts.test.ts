/** NIST SP 800-63B-4 §3.2.2: attempts are limited, and waits may grow; the figures are ours. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ALL_ATTEMPTS_COUNT,
  type Attempts,
  countAttempts,
  FIRST_WAIT_MS,
  FREE_ATTEMPTS_COUNT,
  LONGEST_WAIT_MS,
  TURN_MS,
} from '../../server/access/attempts.ts';
import { keepAccess } from '../../server/access/keep-access.ts';
import { keyDigest } from '../../server/access/access-key.ts';

const DAY_MS = 86_400_000;

interface Clocked extends Attempts {
  readonly go: (ms: number) => void;
}

function clocked(): Clocked {
  let atMs = 0;
  return { ...countAttempts(() => atMs), go: (ms) => void (atMs += ms) };
}

const failTimes = (attempts: Attempts, address: string, count: number): void => {
  for (let n = 0; n < count; n += 1) attempts.failed(address);
};

describe('attempts of one address', () => {
  it('five wrong ones: free; then waits that double up to a quarter of an hour', () => {
    const attempts = clocked();
    const waits: number[] = [];
    for (let n = 0; n < 14; n += 1) {
      waits.push(attempts.waitMs('a'));
      attempts.go(waits.at(-1) ?? 0);
      expect(attempts.waitMs('a')).toBe(0);
      attempts.failed('a');
    }
    expect(waits.slice(0, FREE_ATTEMPTS_COUNT)).toEqual([0, 0, 0, 0, 0]);
    expect(waits.slice(FREE_ATTEMPTS_COUNT)).toEqual([10, 20, 40, 80, 160, 320, 640, 900, 900].map((s) => s * 1000));
    expect([FIRST_WAIT_MS, LONGEST_WAIT_MS]).toEqual([10_000, 900_000]);
  });

  it('another address: does not wait for it', () => {
    const attempts = clocked();
    failTimes(attempts, 'a', 8);
    expect(attempts.waitMs('b')).toBe(0);
  });

  it('the right key: the wrong ones before are forgotten; so are they after an hour', () => {
    const attempts = clocked();
    failTimes(attempts, 'a', FREE_ATTEMPTS_COUNT);
    attempts.go(FIRST_WAIT_MS);
    attempts.succeeded('a');
    expect(attempts.failed('a')).toBe(1);
    attempts.go(3_600_000);
    expect(attempts.failed('a')).toBe(2);
    attempts.go(3_600_001);
    expect(attempts.failed('a')).toBe(1);
  });
});

describe('attempts of all addresses', () => {
  it('sixty wrong ones from as many: whoever was not in before waits for a turn every ten seconds', () => {
    const attempts = clocked();
    attempts.succeeded('known');
    for (let n = 0; n < ALL_ATTEMPTS_COUNT; n += 1) failTimes(attempts, `a${n}`, 1);
    expect(attempts.waitMs('new')).toBeCloseTo(TURN_MS);
    expect(attempts.waitMs('known')).toBe(0);
    attempts.go(TURN_MS);
    expect(attempts.waitMs('new')).toBe(0);
    attempts.failed('new');
    expect(attempts.waitMs('another')).toBeCloseTo(TURN_MS);
  });

  it('however addresses are changed, at most 8700 keys are tried in a day', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 2000, max: 60_000 }), (addressCount, stepMs) => {
        const attempts = clocked();
        let triedCount = 0;
        for (let atMs = 0, n = 0; atMs < DAY_MS; atMs += stepMs, n += 1) {
          const address = `a${n % addressCount}`;
          if (attempts.waitMs(address) === 0) {
            attempts.failed(address);
            triedCount += 1;
          }
          attempts.go(stepMs);
        }
        expect(triedCount).toBeLessThanOrEqual(ALL_ATTEMPTS_COUNT + DAY_MS / TURN_MS + 1);
      }),
      { seed: 11, numRuns: 5 },
    );
  });
});

describe('keepAccess', () => {
  const KEY = 'h4wn7-p2kqe-r9txm-3vbza';
  const kept = () => {
    const said: string[] = [];
    const now = { ms: 0 };
    return {
      said,
      now,
      access: keepAccess({ key: keyDigest(KEY), nowMs: () => now.ms, print: (line) => said.push(line) }),
    };
  };

  it('while an address waits, the right key is not looked at either', () => {
    const { access, now } = kept();
    for (let n = 0; n < 5; n += 1) expect(access.tryKey('wrong', 'a').kind).toBe('wrong');
    expect(access.tryKey(KEY, 'a')).toEqual({ kind: 'wait', waitMs: 10_000 });
    expect(access.signIn(KEY, 'a')).toEqual({ kind: 'wait', waitMs: 10_000 });
    now.ms = 9_999;
    expect(access.tryKey(KEY, 'a').kind).toBe('wait');
    now.ms = 10_000;
    expect(access.tryKey(KEY, 'a').kind).toBe('right');
  });

  it('what is printed: the address and how often, neither what was tried nor the key nor a session', () => {
    const { access, said } = kept();
    access.tryKey('almost-the-key', '192.0.2.7');
    const signedIn = access.signIn(KEY, '192.0.2.7');
    if (signedIn.kind !== 'in') throw new Error(signedIn.kind);
    expect(access.isOpen(signedIn.sessionId)).toBe(true);
    expect(said).toEqual(['Wrong access key from 192.0.2.7: 1 in a row.', 'Signed in: a browser at 192.0.2.7.']);
    access.signOut(signedIn.sessionId);
    expect(access.isOpen(signedIn.sessionId)).toBe(false);
  });
});
