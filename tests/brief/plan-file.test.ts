import { describe, expect, it } from 'vitest';
import { readPlan } from '../../lib/brief/index.ts';
import { plan } from '../pages/fixture-plan.ts';

const problemsOf = (value: unknown): string[] => {
  const read = readPlan(typeof value === 'string' ? value : JSON.stringify(value), 'plan.json');
  return read.ok ? [] : read.problems.map(({ code, where }) => `${code} ${where}`);
};

describe('readPlan', () => {
  it('a published plan: read back as it was', () => {
    const read = readPlan(JSON.stringify(plan), 'plan.json');
    expect(read.ok ? read.value : read.problems).toEqual(plan);
  });

  it('no JSON: said, with line and column', () => {
    expect(problemsOf('{')).toEqual(['plan.not-json plan.json, line 1, column 2']);
  });

  it('everything wrong at once: a key missing, one too many, a value that does not fit, an instant that is none', () => {
    const { seed: _left, ...rest } = plan;
    const [first, ...entries] = plan.entries;
    const spoiled = {
      ...rest,
      mood: 'good',
      madeAtUtc: 'yesterday',
      entries: [{ ...first, kind: 'nap' }, ...entries],
    };
    expect(problemsOf(spoiled).toSorted()).toEqual([
      'plan.key-unknown plan.json, mood',
      'plan.missing plan.json, seed',
      'plan.value plan.json, entries[0].kind',
      'plan.value plan.json, madeAtUtc',
    ]);
  });

  it('a plan of an earlier version: each key it lacks is named', () => {
    const { waiting: _waiting, standing: _standing, ...older } = plan;
    expect(problemsOf(older)).toEqual(['plan.missing plan.json, waiting', 'plan.missing plan.json, standing']);
  });
});
