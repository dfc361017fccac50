/** What the parts of a sail say of one another and cannot. */
import type { Problem } from '../result/index.ts';
import { metresText } from './finding-text.ts';
import { type At, heightProblems } from './height-problems.ts';
import { footAngleDeg, leechRangeM } from './outline.ts';
import type { SailFile } from './sail-file.ts';

/** Sides that make no sail, gores, battens, heights and reefs that are not there. */
export function sailProblems(sail: SailFile, at: At): readonly Problem[] {
  const sides = sidesProblem(sail, at);
  return [
    ...goreProblems(sail, at),
    ...battenProblems(sail, at),
    ...(sides === null ? heightProblems(sail, at) : [sides]),
    ...setReefProblems(sail, at),
  ];
}

function sidesProblem(sail: SailFile, at: At): Problem | null {
  if (footAngleDeg(sail) !== null) return null;
  const { leastM, mostM } = leechRangeM(sail);
  return {
    code: 'sail.sides',
    where: at('sail', 'leechM'),
    what: `Luff ${sail.luffM} m, foot ${sail.footM} m and leech ${sail.leechM} m make no ${sail.kind}.`,
    expected: `a leech of ${metresText(leastM)} to ${metresText(mostM)} with this luff and foot`,
    remedy: 'Measure the leech straight from head to clew, or leave it out.',
  };
}

function goreProblems(sail: SailFile, at: At): readonly Problem[] {
  const { gores, panelCount, cut } = sail;
  const problem = (where: string, what: string, expected: string): Problem => ({
    code: 'sail.gores',
    where,
    what,
    expected,
    remedy: 'Count the gores of each corner.',
  });
  if (cut === 'cross-cut')
    return gores === undefined
      ? []
      : [problem(at('sail', 'gores'), 'A cross-cut sail has no gores.', 'none, or cut "radial"')];
  if (gores === undefined)
    return panelCount >= 3
      ? []
      : [problem(at('sail', 'panelCount'), `${panelCount} is too few for three corners.`, 'at least 3 gores')];
  const sum = gores.tack + gores.clew + gores.head;
  return sum === panelCount
    ? []
    : [
        problem(
          at('sail', 'gores'),
          `They are ${sum} together, panelCount is ${panelCount}.`,
          `${panelCount} together`,
        ),
      ];
}

function battenProblems({ battens }: SailFile, at: At): readonly Problem[] {
  if (battens === undefined) return [];
  const seen = new Set<number>();
  return (battens.states ?? []).flatMap(({ batten, from }, index): readonly Problem[] => {
    const fromHead = from === 'foot' ? battens.count + 1 - batten : batten;
    const place = at('sail', 'battens', 'states', index, 'batten');
    if (batten > battens.count)
      return [
        {
          code: 'sail.batten',
          where: place,
          what: `There is no batten ${batten}: there are ${battens.count}.`,
          expected: battens.count === 0 ? 'none' : `1 to ${battens.count}`,
          remedy: 'Count again from the head, or correct sail.battens.count.',
        },
      ];
    if (seen.has(fromHead))
      return [
        {
          code: 'sail.batten',
          where: place,
          what: `Batten ${fromHead} from the head has two states.`,
          expected: 'one state for each batten',
          remedy: 'Take one of them out.',
        },
      ];
    seen.add(fromHead);
    return [];
  });
}

function setReefProblems({ reefs }: SailFile, at: At): readonly Problem[] {
  if (reefs?.set === undefined || reefs.set <= reefs.count) return [];
  return [reefProblem(at('sail', 'reefs', 'set'), reefs.set, reefs.count)];
}

/** A reef the sail does not have. */
export const reefProblem = (where: string, reefNumber: number, reefCount: number): Problem => ({
  code: 'damage.reef',
  where,
  what: `There is no reef ${reefNumber}: there are ${reefCount}.`,
  expected: reefCount === 0 ? 'a sail with reefs' : `1, the lowest, to ${reefCount}`,
  remedy: 'Count from the foot, or correct sail.reefs.count.',
});
