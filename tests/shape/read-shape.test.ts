/** Values that may be of one kind or another: the problem is that of the kind they were meant as. Our own rule. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Problem } from '../../lib/result/index.ts';
import { readShape } from '../../lib/shape/index.ts';

const point = z.strictObject({ lat: z.number().max(90), leg: z.enum(['rhumb', 'great-circle']).exactOptional() });
const shape = z.strictObject({ track: z.union([z.array(point).min(2), z.strictObject({ gpx: z.string() })]) });
const level = z.union([z.number(), z.literal('head')], { error: 'a batten number or "head"' });

const problemsOf = (schema: z.ZodType, raw: unknown): readonly Problem[] => {
  const read = readShape(schema, raw, { where: 'f.json', path: [] });
  return read.ok ? [] : read.problems;
};

describe('readShape, where a value may be of several kinds', () => {
  it.each([
    [[{ lat: 1 }, { lat: 2, leg: 'rhum' }], 'track[1].leg', 'one of rhumb, great-circle', 'Did you mean "rhumb"?'],
    [[{ lat: 1 }, { lat: 95 }], 'track[1].lat', 'at most 90', 'Correct it.'],
    [[{ lat: 1 }, { lat: 2, lag: 'rhumb' }], 'track[1].lag', 'one of lat, leg', 'Did you mean "lat"?'],
    [[{ lat: 1 }], 'track', 'at least 2 entries', 'Correct it.'],
    [{ gpx: 3 }, 'track.gpx', 'a text', 'Correct it.'],
    [{}, 'track.gpx', 'a text', 'Add it.'],
    [7, 'track', 'a list, or an object', 'Correct it.'],
  ])('%j: told at %s', (track, place, expected, remedy) => {
    expect(problemsOf(shape, { track })).toMatchObject([{ where: `f.json, ${place}`, expected, remedy }]);
  });

  it('of no kind, where the shape says itself what it wants: its words', () => {
    expect(problemsOf(level, 'foot')).toMatchObject([
      { what: '"foot" does not fit.', expected: 'a batten number or "head"' },
    ]);
    expect(problemsOf(level, 'head')).toEqual([]);
  });
});
