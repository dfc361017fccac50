import { describe, expect, test } from 'vitest';
import { parsePassage } from '../../lib/passage/index.ts';
import { sample } from './sample.ts';

// Own pace by kind of work in a passage file. Names and ranges are ours.

const read = (paceByWork: unknown) => {
  const { watchkeeper, ...file } = sample();
  return parsePassage(JSON.stringify({ ...file, watchkeeper: { ...watchkeeper, paceByWork } }), 'a.json');
};
const problemsOf = (paceByWork: unknown) => {
  const result = read(paceByWork);
  return result.ok ? [] : result.problems;
};

describe('watchkeeper.paceByWork of a passage file', () => {
  test('is read as it stands, and is absent where it is left out', () => {
    const paces = { sewing: { ratio: 1.4, sessionCount: 5 }, below: { ratio: 0.9, sessionCount: 1 } };
    const result = read(paces);
    expect(result.ok && result.value.watchkeeper.paceByWork).toEqual(paces);
    const without = parsePassage(JSON.stringify(sample()), 'a.json');
    expect(without.ok && 'paceByWork' in without.value.watchkeeper).toBe(false);
  });

  test('a kind nobody knows is refused with the one that is meant', () => {
    const [problem] = problemsOf({ sewin: { ratio: 1.4, sessionCount: 5 } });
    expect(problem?.where).toBe('a.json, watchkeeper.paceByWork.sewin');
    expect(problem?.remedy).toContain('"sewing"');
  });

  test.each([
    [{ sewing: { ratio: 4.1, sessionCount: 5 } }, 'ratio'],
    [{ sewing: { ratio: 0.2, sessionCount: 5 } }, 'ratio'],
    [{ sewing: { ratio: 1, sessionCount: -1 } }, 'sessionCount'],
    [{ sewing: { ratio: 1, sessionCount: 1.5 } }, 'sessionCount'],
    [{ sewing: { ratio: 1 } }, 'sessionCount'],
  ])('%j is refused at its %s', (paces, key) => {
    expect(problemsOf(paces).map(({ where }) => where)).toEqual([`a.json, watchkeeper.paceByWork.sewing.${key}`]);
  });
});
