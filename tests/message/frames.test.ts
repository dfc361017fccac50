import fc from 'fast-check';
import { crc32 as zlibCrc32 } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { crc32 } from '../../lib/message/frames/crc32.ts';
import { base32 } from '../../lib/message/frames/characters.ts';
import { findParts, joinFrames, septetsOf, writeFrames } from '../../lib/message/index.ts';
import { ALPHABET, drawnBase, drawnBody, drawnEnvelope, RUNS } from './drawn.ts';
import { valueOf } from './value-of.ts';

const OPEN = { where: 'test', keyOctets: null };

/** Every part that differs from this one in one character, and every one with two neighbours changed places. */
function* nearMisses(part: string): Generator<string> {
  for (let at = 0; at < part.length; at++) {
    const [before, here, after] = [part.slice(0, at), part.charAt(at), part.slice(at + 1)];
    for (const other of ALPHABET) if (other !== here) yield `${before}${other}${after}`;
    const next = part.charAt(at + 1);
    if (next !== '' && next !== here) yield `${before}${next}${here}${after.slice(1)}`;
  }
}

const isRead = (text: string): boolean => findParts(text, 'test').parts.length > 0;

describe('one part', () => {
  // RFC 4648, section 10, test vectors of base 32 without padding.
  test.each([
    ['', ''],
    ['f', 'MY'],
    ['fo', 'MZXQ'],
    ['foo', 'MZXW6'],
    ['foob', 'MZXW6YQ'],
    ['fooba', 'MZXW6YTB'],
    ['foobar', 'MZXW6YTBOI'],
  ])('base 32 of "%s" is %s', (text, expected) => expect(base32(new TextEncoder().encode(text))).toBe(expected));

  test('the check is CRC-32: 0xCBF43926 for "123456789" (catalogue value, from memory), and as zlib reckons it', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (octets) => {
        expect(crc32(octets)).toBe(zlibCrc32(octets));
      }),
      RUNS,
    );
  });

  test('every character is one septet and one octet', () => {
    for (const character of ALPHABET) {
      expect(septetsOf(character)).toHaveLength(1);
      expect(septetsOf(character)?.[0]).toBe(character.codePointAt(0));
    }
  });

  // Exhaustive: W. W. Peterson and D. T. Brown, Cyclic Codes for Error Detection, Proc. IRE 49 (1961): all bursts up to 32 bits.
  test('every changed character and every swap of neighbours is found, in head, piece, check and marks', () => {
    const envelopes = fc.sample(drawnEnvelope, { seed: 3, numRuns: 3 });
    let tried = 0;
    for (const envelope of envelopes) {
      const limitCount = 80 + (tried % 191);
      const parts = valueOf(
        writeFrames({ ...envelope, body: envelope.body.slice(0, 150) }, { limitCount, keyOctets: null }),
      );
      for (const part of parts) {
        const misses = [...nearMisses(part)];
        tried += misses.length;
        expect(misses.filter(isRead)).toEqual([]);
      }
    }
    expect(tried).toBeGreaterThan(20_000);
  });

  test('a part of 270 characters in one piece: the same', () => {
    const [envelope] = fc.sample(drawnEnvelope, { seed: 5, numRuns: 1 });
    if (envelope === undefined) throw new Error('one is drawn');
    const body = fc.sample(drawnBody(400), { seed: 9, numRuns: 40 }).toSorted((a, b) => b.length - a.length)[0] ?? '';
    const [part = ''] = valueOf(writeFrames({ ...envelope, body }, { limitCount: 270, keyOctets: null }));
    expect(part).toHaveLength(270);
    expect([...nearMisses(part)].filter(isRead)).toEqual([]);
  });
});

describe('parts to messages', () => {
  test('any message, any limit: shuffled, twice, wrapped and quoted as in mail, with words around: it is read', () => {
    fc.assert(
      fc.property(
        drawnEnvelope,
        fc.integer({ min: 80, max: 300 }),
        fc.infiniteStream(fc.nat({ max: 1_000_000 })),
        fc.integer({ min: 20, max: 76 }),
        (envelope, limitCount, stream, width) => {
          const parts = valueOf(writeFrames(envelope, { limitCount, keyOctets: null }));
          for (const part of parts) expect(part.length).toBeLessThanOrEqual(limitCount);
          const draw = (): number => Number(stream.next().value);
          const mixed = [...parts, ...parts.filter(() => draw() % 2 === 0)]
            .map((part) => ({ part, at: draw() }))
            .toSorted((a, b) => a.at - b.at)
            .map(({ part }) => `Hello; your part (${draw() % 7}) 8)\n> ${wrapped(part, width)}\n> --\n`);
          const { whole, unread, damaged } = joinFrames(mixed.join('\r\n'), OPEN);
          expect([unread, damaged]).toEqual([[], []]);
          expect(whole).toHaveLength(1);
          expect(whole[0]).toMatchObject({
            ...envelope,
            signature: 'unsigned',
            repeatedCount: mixed.length - parts.length,
          });
        },
      ),
      RUNS,
    );
  });

  const wrapped = (text: string, width: number): string =>
    text.replaceAll(new RegExp(`.{${width}}`, 'g'), (line) => `${line}\n> `);

  const LONG = {
    kind: 'plan' as const,
    sender: 'LW',
    counterNumber: 7,
    baseEpochMs: Date.UTC(2026, 4, 27, 18),
    body: 'P7/'.repeat(100),
  };
  const three = valueOf(writeFrames(LONG, { limitCount: 160, keyOctets: null }));

  test('a missing part is named, and nothing is read', () => {
    expect(three).toHaveLength(3);
    const { whole, unread } = joinFrames([three[0], three[2]].join(' '), OPEN);
    expect(whole).toEqual([]);
    expect(unread[0]?.missingNumbers).toEqual([2]);
    expect(unread[0]?.problems[0]).toMatchObject({
      code: 'message.part-missing',
      remedy: 'Ask: send part 2 of 3 of plan 7 from LW again.',
    });
  });

  test('a damaged part is named with its reason', () => {
    const broken = (three[1] ?? '').replace('/P7/', '/P8/');
    const { whole, unread, damaged } = joinFrames([three[0], broken, three[2]].join(' '), OPEN);
    expect(whole).toEqual([]);
    expect(unread[0]?.problems[0]?.what).toBe('The part 2 of 3 of plan 7 from LW is damaged.');
    expect(damaged[0]?.problem).toMatchObject({ code: 'message.part-damaged' });
    expect(damaged[0]?.claims).toMatchObject({ partNumber: 2, partCount: 3 });
  });

  test('a part that broke off does not swallow the next', () => {
    const { whole, damaged } = joinFrames([(three[1] ?? '').slice(0, 90), ...three].join(' '), OPEN);
    expect(whole).toHaveLength(1);
    expect(damaged.map(({ problem }) => problem.code)).toEqual(['message.part-broken-off']);
  });

  test('nothing but beginnings: each is a part broken off', () => {
    const { parts, damaged } = findParts('SL;'.repeat(3000), 'test');
    expect([parts.length, damaged.length]).toEqual([0, 3000]);
    expect(findParts('SL;ABCDEFG#'.repeat(3000), 'test').damaged).toHaveLength(3000);
  });

  test('one part of 999: the others are not listed one by one', () => {
    const all = valueOf(writeFrames({ ...LONG, body: 'A'.repeat(20_000) }, { limitCount: 80, keyOctets: null }));
    const { unread } = joinFrames(all[3] ?? '', OPEN);
    expect(unread[0]?.missingNumbers).toHaveLength(all.length - 1);
    expect(unread[0]?.problems).toHaveLength(1);
  });

  test('two parts of one number that differ are a contradiction, even if one of them would fit', () => {
    const other = valueOf(writeFrames({ ...LONG, body: 'P8/'.repeat(100) }, { limitCount: 160, keyOctets: null }));
    const { whole, unread } = joinFrames([...three, other[1]].join(' '), OPEN);
    expect(whole).toEqual([]);
    expect(unread[0]?.problems.map(({ code }) => code)).toEqual(['message.parts-differ']);
  });

  test('parts of two messages of the same counter do not make one', () => {
    const other = valueOf(writeFrames({ ...LONG, body: 'P8/'.repeat(100) }, { limitCount: 160, keyOctets: null }));
    for (const keyOctets of [null, new Uint8Array(32).fill(5)]) {
      const mine = valueOf(writeFrames(LONG, { limitCount: 160, keyOctets }));
      const theirs = valueOf(writeFrames({ ...LONG, body: 'P8/'.repeat(100) }, { limitCount: 160, keyOctets }));
      const { whole, unread } = joinFrames([mine[0], theirs[1], mine[2]].join(' '), OPEN);
      expect(whole).toEqual([]);
      expect(unread[0]?.problems[0]?.code).toBe('message.seal');
    }
    expect(other).toHaveLength(3);
  });

  test('several messages in one text are read each', () => {
    const other = valueOf(writeFrames({ ...LONG, counterNumber: 8 }, { limitCount: 100, keyOctets: null }));
    const { whole } = joinFrames([other[1], ...three, other[0], ...other.slice(2)].join(' '), OPEN);
    expect(whole.map(({ counterNumber }) => counterNumber).toSorted((a, b) => a - b)).toEqual([7, 8]);
  });

  test('changed case is refused with the reason', () => {
    const { whole, damaged } = joinFrames(three.join(' ').toLowerCase(), OPEN);
    expect(whole).toEqual([]);
    expect(damaged[0]?.problem.code).toBe('message.part-case');
    const part = three[0] ?? '';
    expect(joinFrames(`${part.slice(0, 60)}${part.slice(60).toLowerCase()}`, OPEN).damaged[0]?.problem.code).toBe(
      'message.part-case',
    );
  });

  test('a body that ends like the beginning of a part is read', () => {
    const parts = valueOf(writeFrames({ ...LONG, body: 'ABCSL' }, { limitCount: 160, keyOctets: null }));
    expect(joinFrames(parts.join(''), OPEN).whole[0]?.body).toBe('ABCSL');
    for (let length = 100; length < 180; length++) {
      const body = `${'SL'.repeat(length / 2)}${length % 2 === 1 ? 'S' : ''}`;
      const cut = valueOf(writeFrames({ ...LONG, body }, { limitCount: 90, keyOctets: null }));
      const { whole, damaged } = joinFrames(cut.join(''), OPEN);
      expect([whole[0]?.body, damaged]).toEqual([body, []]);
    }
  });

  test.each([
    ['message.nothing-found', 'nothing here'],
    ['message.nothing-found', ''],
    ['message.nothing-found', 'P.LW.7.1-1;2605271800;ABCDEFG#'],
    ['message.part-broken-off', 'SL;P.LW.7.1-1;2605271800P7'],
    ['message.part-damaged', 'SL;#'],
  ])('%s: "%s"', (code, text) => {
    const { whole, damaged } = joinFrames(text, OPEN);
    expect(whole).toEqual([]);
    expect(damaged[0]?.problem.code).toBe(code);
  });

  test.each([
    ['message.sender', { sender: 'lw' }],
    ['message.sender', { sender: 'LONGER' }],
    ['message.counter', { counterNumber: 0 }],
    ['message.counter', { counterNumber: 1.5 }],
    ['message.base-time', { baseEpochMs: Date.UTC(2026, 4, 27) + 1 }],
    ['message.base-time', { baseEpochMs: Date.UTC(2100, 0, 1) }],
    ['message.character', { body: 'a;b' }],
    ['message.character', { body: '35°' }],
  ])('%s: refused when written', (code, wrong) => {
    const written = writeFrames({ ...LONG, ...wrong }, { limitCount: 160, keyOctets: null });
    expect(written).toMatchObject({ ok: false, problems: [{ code }] });
  });

  test.each([79, 160.5, Number.NaN])('a limit of %s is refused', (limitCount) =>
    expect(writeFrames(LONG, { limitCount, keyOctets: null })).toMatchObject({ problems: [{ code: 'message.limit' }] }),
  );

  test('a message of more than 999 parts is refused', () =>
    expect(writeFrames({ ...LONG, body: 'A'.repeat(60_000) }, { limitCount: 80, keyOctets: null })).toMatchObject({
      problems: [{ code: 'message.too-many-parts' }],
    }));

  test('the base time carries its month and year: leap days, ends of months and years come back', () => {
    fc.assert(
      fc.property(drawnBase, (baseEpochMs) => {
        const parts = valueOf(writeFrames({ ...LONG, baseEpochMs }, { limitCount: 160, keyOctets: null }));
        expect(joinFrames(parts.join(''), OPEN).whole[0]?.baseEpochMs).toBe(baseEpochMs);
      }),
      RUNS,
    );
  });
});
