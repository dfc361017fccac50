import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { joinFrames, planMessageOf, readMessages, writeFrames, writeMessage } from '../../lib/message/index.ts';
import { ALPHABET, drawnEnvelope } from './drawn.ts';
import { littlePlan } from './little-plan.ts';
import { valueOf } from './value-of.ts';

// A corrupted text is refused, or reads as what was sent: the message sent is the reference.

/** Mulberry32, a small generator with a fixed seed; returns whole numbers below `below`. */
function generator(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

type Draw = (below: number) => number;
type Corruption = (text: string, draw: Draw, other: string) => string;

const NOISE = `${ALPHABET} \n\t>€é<=&'"{}_@*`;
const one = (draw: Draw): string => NOISE.charAt(draw(NOISE.length));
const put = (text: string, at: number, cut: number, by: string): string =>
  text.slice(0, at) + by + text.slice(at + cut);

/** So many kinds of harm: each takes a text of whole parts, and one of another message. */
const HARMS: Readonly<Record<string, Corruption>> = {
  'one to eight characters replaced': (text, draw) => {
    let harmed = text;
    for (let k = draw(8); k >= 0; k--) harmed = put(harmed, draw(harmed.length), 1, one(draw));
    return harmed;
  },
  'a stretch replaced': (text, draw) => {
    const length = 2 + draw(40);
    return put(text, draw(text.length), length, Array.from({ length }, () => one(draw)).join(''));
  },
  'characters lost': (text, draw) => put(text, draw(text.length), 1 + draw(12), ''),
  'characters added': (text, draw) =>
    put(text, draw(text.length), 0, Array.from({ length: 1 + draw(12) }, () => one(draw)).join('')),
  'cut off': (text, draw) => (draw(2) === 0 ? text.slice(0, draw(text.length)) : text.slice(draw(text.length))),
  'a stretch twice': (text, draw) => {
    const [at, length] = [draw(text.length), 1 + draw(60)];
    return put(text, at, 0, text.slice(at, at + length));
  },
  'two stretches changed places': (text, draw) => {
    const [at, length] = [draw(text.length), 1 + draw(30)];
    const [first, second] = [text.slice(at, at + length), text.slice(at + length, at + 2 * length)];
    return put(text, at, 2 * length, second + first);
  },
  'another case from somewhere on': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + (draw(2) === 0 ? text.slice(at).toLowerCase() : text.slice(at).toUpperCase());
  },
  'one half of another message': (text, draw, other) =>
    text.slice(0, draw(text.length)) + other.slice(draw(other.length)),
  'a digit for another': (text, draw) => {
    const digits = [...text.matchAll(/\d/g)];
    const at = digits[draw(digits.length)]?.index ?? 0;
    return put(text, at, 1, String(draw(10)));
  },
  'parts mixed': (text, draw, other) => {
    const parts = [...text.split('\n'), ...other.split('\n')];
    return parts
      .filter(() => draw(3) > 0)
      .toSorted(() => draw(3) - 1)
      .join('\n');
  },
};

interface Sent {
  readonly text: string;
  readonly content: string;
}

const contentOf = (of: {
  kind: string;
  sender: string;
  counterNumber: number;
  baseEpochMs: number;
  body: string;
}): string => JSON.stringify([of.kind, of.sender, of.counterNumber, of.baseEpochMs, of.body]);

const sent: readonly Sent[] = fc
  .sample(drawnEnvelope, { seed: 11, numRuns: 60 })
  // Neighbours share kind, sender and counter: the worst that can be mixed.
  .map((envelope, index, all) => ({ ...envelope, ...(index % 2 === 1 ? idOf(all[index - 1] ?? envelope) : {}) }))
  .map((envelope) => {
    const body = envelope.body.slice(0, 260);
    const parts = valueOf(writeFrames({ ...envelope, body }, { limitCount: 160, keyOctets: null }));
    return { text: parts.join('\n'), content: contentOf({ ...envelope, body }) };
  });

function idOf({
  kind,
  sender,
  counterNumber,
}: {
  kind: 'plan' | 'digest' | 'report';
  sender: string;
  counterNumber: number;
}) {
  return { kind, sender, counterNumber };
}

describe('corrupted text', () => {
  test('100 000 corruptions of eleven kinds: refused, or read as sent', () => {
    const draw = generator(2026);
    const harms = Object.entries(HARMS);
    const misread: string[] = [];
    let [refused, same] = [0, 0];
    for (let k = 0; k < 100_000; k++) {
      const [name, harm] = harms[k % harms.length] ?? ['', (text: string) => text];
      const at = draw(sent.length);
      const [mine, other] = [sent[at], sent[at ^ 1]];
      if (mine === undefined || other === undefined) throw new Error('messages are drawn in pairs');
      const text = harm(mine.text, draw, other.text);
      const { whole } = joinFrames(text, { where: 'test', keyOctets: null });
      misread.push(
        ...whole
          .map(contentOf)
          .filter((content) => content !== mine.content && content !== other.content)
          .map((content) => `${name}: read ${content} from ${text}`),
      );
      if (whole.length === 0) refused++;
      else same++;
    }
    expect(misread).toEqual([]);
    // Both happen, or the test would say nothing.
    expect(refused).toBeGreaterThan(50_000);
    expect(same).toBeGreaterThan(1000);
  });

  test('a plan with a key: 5 000 corruptions are refused, or read as sent', () => {
    const keyOctets = new TextEncoder().encode('a key of some thirty octets, drawn');
    const message = valueOf(planMessageOf(littlePlan(), { planNumber: 7 }));
    const parts = valueOf(writeMessage(message, { sender: 'LW', counterNumber: 7 }, { limitCount: 160, keyOctets }));
    const draw = generator(7);
    const harms = Object.values(HARMS);
    for (let k = 0; k < 5000; k++) {
      const text = harms[k % harms.length]?.(parts.join('\n'), draw, sent[k % sent.length]?.text ?? '') ?? '';
      const { read } = readMessages(text, { where: 'test', keyOctets });
      for (const { message: got } of read) expect(got).toEqual(message);
    }
  });
});
