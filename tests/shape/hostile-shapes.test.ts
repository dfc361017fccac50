/** Shapes that do not fit by far: answered, briefly, and soon. Bounds are our own. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { readShape } from '../../lib/shape/index.ts';

const shape = z.strictObject({ name: z.string().max(400), places: z.array(z.strictObject({ lat: z.number() })) });
const problemsOf = (raw: unknown) => {
  const read = readShape(shape, raw, { where: 'f.json', path: [] });
  return read.ok ? [] : read.problems;
};

/** Lists inside one another, deeper than a call can be. */
function deep(count: number): unknown {
  let value: unknown = 1;
  for (let left = count; left > 0; left--) value = [value];
  return value;
}

describe('readShape, what does not fit by far', () => {
  it('100 000 lists inside one another in the place of a text: shown in short', () => {
    const [problem] = problemsOf({ name: deep(100_000), places: [] });
    expect(problem).toMatchObject({ code: 'passage.type', where: 'f.json, name', expected: 'a text' });
    const [other] = problemsOf({ name: { a: deep(100_000) }, places: [] });
    expect(other?.what).toBe('{"a":[[["..."]]]} does not fit.');
  });

  it('20 000 entries of another kind: the first of them, and how many more', () => {
    const problems = problemsOf({ name: 'a', places: Array.from({ length: 20_000 }, () => 0) });
    expect(problems[0]).toMatchObject({ where: 'f.json, places[0]', what: '0 does not fit.' });
    expect(problems.at(-1)?.code).toBe('passage.many-more');
    expect(problems.at(-1)?.what).toContain('19800 more');
    expect(problems).toHaveLength(201);
  });

  it('20 000 keys nobody knows, one of 100 000 characters: named in short', () => {
    const keys = Object.fromEntries(Array.from({ length: 20_000 }, (_, i) => [`k${i}`, 0]));
    const problems = problemsOf({ name: 'a', places: [], ['x'.repeat(100_000)]: 0, ...keys });
    expect(problems).toHaveLength(201);
    expect(problems[0]?.what.length).toBeLessThan(200);
    expect(problems[0]?.where.length).toBeLessThan(700);
  });

  it.each(['__proto__', 'constructor', 'toString'])('a key %s in the file: one nobody knows', (key) => {
    const raw: unknown = JSON.parse(`{"name":"a","places":[],"${key}":{"x":1}}`);
    expect(problemsOf(raw)).toMatchObject([{ code: 'passage.key-unknown', what: `There is no key "${key}" here.` }]);
    expect(Object.hasOwn(Object.prototype, 'x')).toBe(false);
  });
});
