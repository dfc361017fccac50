import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { itemOrNull, type CheckItem } from '../../scripts/check-values/check-item.ts';
import { differences } from '../../scripts/check-values/compare.ts';
import { allTopics, checkDocument, formatReport } from '../../scripts/check-values/registry.ts';

const folder = resolve(import.meta.dirname, '../golden/check-values');

const itemsOf = (file: string): readonly CheckItem[] =>
  (JSON.parse(readFileSync(resolve(folder, file), 'utf8')) as { items: unknown[] }).items.map((raw) => {
    const item = itemOrNull(raw);
    if (item === null) throw new Error(`${file} holds something that is no item`);
    return item;
  });

/** Said openly: nothing in the library answers these (ellipsoid, text segments of a network, ephemeris by-products). */
const UNANSWERED: Readonly<Record<string, readonly string[]>> = {
  'weather-and-navigation.json': [
    'equation-of-time',
    'geodesic-wgs84-direct',
    'geodesic-wgs84-inverse',
    'gsm7-septets',
    'moon-position',
    'new-moon',
    'rise-set-method',
    'sms-segments-gsm7',
    'sms-segments-ucs2',
    'solstice',
    'sun-coordinates',
  ],
};

const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

describe.each(files)('published values of %s', (file) => {
  const items = itemsOf(file);
  const answered = items.flatMap((item) => {
    const topic = allTopics.find((known) => known.topic === item.topic);
    return topic === undefined ? [] : [{ id: item.id, item, topic }];
  });

  it.each(answered)('$id', ({ item, topic }) => {
    expect(differences(item, topic)).toEqual([]);
  });

  it('topics without an answer: those listed as such and no others', () => {
    const unanswered = new Set(checkDocument({ items }).unknown.map(({ topic }) => topic));
    expect([...unanswered].toSorted()).toEqual(UNANSWERED[file] ?? []);
  });
});

describe('the check itself', () => {
  const items = itemsOf('weather-and-navigation.json');

  /** The item with every expected figure moved just past what its tolerance allows. */
  const spoiled = (item: CheckItem): CheckItem => {
    const widest = Math.max(
      ...(typeof item.tolerance === 'number' ? [item.tolerance] : Object.values(item.tolerance ?? { none: 0 })),
    );
    const expected = Object.fromEntries(
      Object.entries(item.expected).map(([key, value]) => [
        key,
        typeof value === 'number' ? value + 2.5 * widest + 1e-6 : value,
      ]),
    );
    return { ...item, expected };
  };

  it('figures moved past their tolerance: every item with a figure fails', () => {
    const answered = items.filter(
      (item) =>
        allTopics.some(({ topic }) => topic === item.topic) &&
        Object.values(item.expected).some((value) => typeof value === 'number'),
    );
    const report = checkDocument({ items: answered.map(spoiled) });
    expect(answered.length).toBeGreaterThan(130);
    expect(report.passedIds).toEqual([]);
  });

  it('instants moved by an hour: every item with an instant fails', () => {
    const timed = items.filter(
      (item) => item.topic === 'sun-moon-day-utc' || item.topic === 'sun-day-at-sea' || item.topic === 'sun-event',
    );
    const late = timed.map((item) => ({
      ...item,
      expected: Object.fromEntries(
        Object.entries(item.expected).map(([key, value]) => [
          key,
          typeof value === 'string' ? new Date(Date.parse(value) + 3_600_000).toISOString() : value,
        ]),
      ),
    }));
    expect(checkDocument({ items: late }).passedIds).toEqual([]);
  });

  it('a key nobody answers, a missing input, something that is no item: failures, not passes', () => {
    const report = checkDocument({
      items: [
        { id: 'a', topic: 'steepness', inputs: { hs: 2, T: 6 }, expected: { colour: 1 }, tolerance: 1 },
        { id: 'b', topic: 'steepness', inputs: { hs: 2 }, expected: { steepness: 0.0356 }, tolerance: 1 },
        { id: 'c' },
      ],
    });
    expect(report.failures.map(({ id }) => id)).toEqual(['a', 'b', 'item 3']);
  });

  it('an unknown topic: counted apart', () => {
    const report = checkDocument({ items: [{ id: 'a', topic: 'tides', inputs: {}, expected: {}, tolerance: 0 }] });
    expect(formatReport(report)).toBe('Unknown topics: tides\n0 passed, 0 failed, 1 of unknown topic');
  });
});
