import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { septetsOf, smsLength } from '../../lib/message/index.ts';

const golden = (name: string): string => readFileSync(new URL(`../golden/message/${name}`, import.meta.url), 'utf8');

interface Item {
  readonly id: string;
  readonly inputs: { readonly septets?: number; readonly utf16units?: number; readonly text?: string };
  readonly expected: { readonly segments?: number; readonly septets?: number };
}

// 3GPP TS 23.038 and 23.040: segment sizes and the extension table; sources in the file.
const { items } = JSON.parse(golden('sms-segments.json')) as { items: readonly Item[] };

/** Segments where they are asked for, else septets. */
function asExpected(item: Item): Item['expected'] {
  const { segmentCount, unitCount } = lengthOf(item);
  return item.expected.segments === undefined ? { septets: unitCount } : { segments: segmentCount };
}

function lengthOf({ inputs }: Item): ReturnType<typeof smsLength> {
  if (inputs.text !== undefined) return smsLength(inputs.text);
  // "a" takes one septet; the Cyrillic letter is in neither table and takes one 16-bit unit.
  return smsLength(inputs.septets === undefined ? 'я'.repeat(inputs.utf16units ?? 0) : 'a'.repeat(inputs.septets));
}

describe('length of a short message', () => {
  test('check values are there', () => {
    expect(items).toHaveLength(10);
  });

  test.each(items)('$id: as the standard says', (item) => {
    expect(asExpected(item)).toEqual(item.expected);
  });

  test('every character of the basic plane has the septets an independent encoder gives it, or none', () => {
    const lines = golden('gsm-0338.txt').trim().split('\n');
    const known = new Map(lines.map((line) => [line.slice(0, 4), line.slice(5)]));
    expect(known.size).toBe(137);
    const wrong: string[] = [];
    for (let code = 0; code < 0x10000; code++) {
      if (code >= 0xd800 && code < 0xe000) continue;
      const hex = code.toString(16).toUpperCase().padStart(4, '0');
      const septets = septetsOf(String.fromCodePoint(code))?.map((septet) => septet.toString(16).padStart(2, '0'));
      if (septets?.join('') !== known.get(hex)) wrong.push(hex);
    }
    expect(wrong).toEqual([]);
  });

  test('a pair of escape and character is never cut: what begins in septet 153 goes into the next segment', () => {
    // 152 + 2 + 152 = 306 septets fit two segments by count, and need three with the pair kept whole.
    expect(smsLength(`${'a'.repeat(152)}€${'a'.repeat(152)}`)).toMatchObject({ unitCount: 306, segmentCount: 3 });
    expect(smsLength(`${'a'.repeat(151)}€${'a'.repeat(153)}`)).toMatchObject({ unitCount: 306, segmentCount: 2 });
  });

  test('a pair of surrogates is never cut', () => {
    expect(smsLength(`${'я'.repeat(66)}😀${'я'.repeat(66)}`)).toMatchObject({ unitCount: 134, segmentCount: 3 });
  });

  test('one character outside the tables is named, and puts all into 16-bit units', () => {
    expect(smsLength('35° S')).toEqual({ encoding: 'ucs-2', unitCount: 5, segmentCount: 1, foreign: ['°'] });
  });

  test('an empty text is one segment', () => expect(smsLength('')).toMatchObject({ unitCount: 0, segmentCount: 1 }));
});
