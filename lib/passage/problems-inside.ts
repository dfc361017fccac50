import type { Problem } from '../result/index.ts';

/** Problems of a part that was read as a file of its own, with their places as one path: `p.json, sails[0].sail.luffM`. */
export const problemsInside = (problems: readonly Problem[], place: string): readonly Problem[] =>
  problems.map((problem) => ({ ...problem, where: problem.where.replace(`${place}, `, `${place}.`) }));
