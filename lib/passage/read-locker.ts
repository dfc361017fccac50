import type { z } from 'zod';
import type { Job } from '../jobs/index.ts';
import { okUnless, type Problem, type Result } from '../result/index.ts';
import { materialsShort, type Locker } from '../stock/index.ts';
import type { lockerFile } from './passage-file.ts';

/**
 * The locker, or `passage.item-twice`, and `stock.unit-mismatch` where a job needs an item in another unit.
 *
 * @param jobs empty when they could not be read
 */
export function readLocker(file: z.infer<typeof lockerFile>, where: string, jobs: readonly Job[]): Result<Locker> {
  const names = file.map(({ item }) => item.trim().toLowerCase());
  const twice = file.flatMap(({ item }, index) =>
    names.indexOf(names[index] ?? '') === index ? [] : [itemTwice(item, `${where}[${index}].item`)],
  );
  const locker: Locker = {
    items: file.map(({ item, unit, onBoard, keep }) => ({ item, unit, onBoardAmount: onBoard, keepAmount: keep ?? 0 })),
  };
  const needs = jobs.flatMap((job) => job.steps.flatMap((step) => step.materials));
  const counted = materialsShort(locker, needs);
  const units = counted.ok
    ? []
    : counted.problems.map((problem) => ({ ...problem, where: `${where}, ${problem.where}` }));
  return okUnless([...twice, ...onlyOnce(units)], () => locker);
}

const itemTwice = (item: string, where: string): Problem => ({
  code: 'passage.item-twice',
  where,
  what: `"${item}" is listed twice.`,
  expected: 'each item once',
  remedy: 'Add the two amounts up in one line.',
});

/** Several jobs that need one item in the wrong unit are one mistake in the locker. */
const onlyOnce = (problems: readonly Problem[]): readonly Problem[] =>
  problems.filter((problem, index) => problems.findIndex(({ where }) => where === problem.where) === index);
