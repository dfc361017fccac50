import { readFileSync } from 'node:fs';
import { crc32 as crc } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { hmacSha256 } from '../../lib/message/frames/seal.ts';
import { joinFrames, replayCheck, writeFrames } from '../../lib/message/index.ts';
import type { SeenCounters, WholeMessage } from '../../lib/message/index.ts';
import { valueOf } from './value-of.ts';

interface Vectors {
  readonly cases: readonly { readonly id: string; readonly key: string; readonly data: string; readonly mac: string }[];
}

// RFC 4231, sections 4.2 to 4.8.
const { cases } = JSON.parse(
  readFileSync(new URL('../golden/message/rfc-4231.json', import.meta.url), 'utf8'),
) as Vectors;

const octets = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex, 'hex'));
const KEY = new TextEncoder().encode('sixteen octets, at least');
const OTHER_KEY = new TextEncoder().encode('sixteen octets, at most?');

const ENVELOPE = {
  kind: 'plan' as const,
  sender: 'LW',
  counterNumber: 7,
  baseEpochMs: Date.UTC(2026, 4, 27, 18),
  body: 'P7,F6/JDROP,280200-0420',
};

const written = (keyOctets: Uint8Array | null, change: Partial<typeof ENVELOPE> = {}): string =>
  valueOf(writeFrames({ ...ENVELOPE, ...change }, { limitCount: 160, keyOctets })).join('\n');

const codesOf = (text: string, settings: { keyOctets: Uint8Array | null; takesUnsigned?: boolean }): unknown => {
  const { whole, unread } = joinFrames(text, { where: 'test', ...settings });
  return unread[0]?.problems[0]?.code ?? whole[0]?.signature;
};

describe('signature', () => {
  test.each(cases)('RFC 4231, $id', ({ key, data, mac }) => {
    const reckoned = Buffer.from(hmacSha256(octets(key), octets(data))).toString('hex');
    expect(reckoned.slice(0, mac.length)).toBe(mac);
  });

  test('the signature is 16 characters of base 32, 80 bits, behind the 6 that hold the parts together', () => {
    expect(written(KEY)).toMatch(/:[A-Z2-7]{22};[A-Z2-7]{7}#$/);
    expect(written(null)).toMatch(/:[A-Z2-7]{6};[A-Z2-7]{7}#$/);
  });

  test('the right key verifies, whatever the parts were cut to', () => {
    expect(codesOf(written(KEY), { keyOctets: KEY })).toBe('verified');
    const long = { ...ENVELOPE, body: 'P7,F6'.repeat(20) };
    const small = valueOf(writeFrames(long, { limitCount: 80, keyOctets: KEY }));
    expect(small).toHaveLength(3);
    expect(codesOf(small.join(''), { keyOctets: KEY })).toBe('verified');
  });

  test('another key, a key too short, no signature: refused; without a key nothing is verified', () => {
    expect(codesOf(written(KEY), { keyOctets: OTHER_KEY })).toBe('message.mac');
    expect(codesOf(written(KEY), { keyOctets: new Uint8Array(15) })).toBe('message.key-short');
    expect(codesOf(written(null), { keyOctets: KEY })).toBe('message.unsigned');
    expect(codesOf(written(null), { keyOctets: KEY, takesUnsigned: true })).toBe('unsigned');
    expect(codesOf(written(KEY), { keyOctets: null })).toBe('signed-not-verified');
    expect(codesOf(written(null), { keyOctets: null })).toBe('unsigned');
  });

  test('kind, sender, counter, base time and body are all signed: a message forged with right checks is refused', () => {
    const signature = /:[A-Z2-7]{6}([A-Z2-7]{16});/.exec(written(KEY))?.[1] ?? '';
    for (const change of [
      { sender: 'LX' },
      { counterNumber: 8 },
      { baseEpochMs: ENVELOPE.baseEpochMs + 60_000 },
      { body: 'P7,F6/JDROP,280300-0420' },
    ]) {
      const own = written(OTHER_KEY, change);
      const parts = valueOf(writeFrames({ ...ENVELOPE, ...change }, { limitCount: 160, keyOctets: OTHER_KEY }));
      expect(parts).toHaveLength(1);
      // Its own signature is replaced by one the key has given to another message; the check is made anew.
      const forged = withCheck(own.replace(/([A-Z2-7]{16});[A-Z2-7]{7}#$/, `${signature};`));
      expect(codesOf(forged, { keyOctets: KEY })).toBe('message.mac');
    }
  });

  test('a key too short is refused when writing', () =>
    expect(writeFrames(ENVELOPE, { limitCount: 160, keyOctets: new Uint8Array(15) })).toMatchObject({
      problems: [{ code: 'message.key-short' }],
    }));
});

/** The check by zlib and a base 32 of the test's own: not the code that is tested. */
function withCheck(text: string): string {
  const value = crc(text.slice(0, -1));
  const bits = value.toString(2).padStart(32, '0').padEnd(35, '0');
  const check = (bits.match(/.{5}/g) ?? []).map((five) => 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'[Number.parseInt(five, 2)]);
  return `${text}${check.join('')}#`;
}

describe('replay', () => {
  const message = (counterNumber: number, body = 'P7', sender = 'LW'): WholeMessage => {
    const text = written(KEY, { counterNumber, body, sender });
    const [whole] = joinFrames(text, { where: 'test', keyOctets: KEY }).whole;
    if (whole === undefined) throw new Error('it is whole');
    return whole;
  };
  const after = (...taken: readonly WholeMessage[]): SeenCounters =>
    taken.reduce((seen, of) => valueOf(replayCheck(seen, of)).seen, {});

  test('a higher counter is new; gaps do not matter', () => {
    expect(replayCheck({}, message(5))).toMatchObject({ value: { verdict: 'new' } });
    expect(replayCheck(after(message(5)), message(9))).toMatchObject({ value: { verdict: 'new' } });
  });

  test('the same again is a duplicate, and changes nothing', () => {
    const seen = after(message(5));
    expect(replayCheck(seen, message(5))).toEqual({ ok: true, value: { verdict: 'duplicate', seen } });
  });

  test('the same counter with another content, and a lower one, are refused', () => {
    expect(replayCheck(after(message(5)), message(5, 'P8'))).toMatchObject({
      problems: [{ code: 'message.counter-used' }],
    });
    expect(replayCheck(after(message(5)), message(4))).toMatchObject({ problems: [{ code: 'message.replayed' }] });
  });

  test('each sender and kind has its own counter', () =>
    expect(replayCheck(after(message(5)), message(1, 'P1', 'SH'))).toMatchObject({ value: { verdict: 'new' } }));
});
