import type { z } from 'zod';
import type { Job, MaterialNeed } from '../jobs/index.ts';
import { okUnless, type Problem, type Result } from '../result/index.ts';
import {
  itemKey,
  LOCKER_ITEM_DEFAULTS,
  lockerProblems,
  materialsShort,
  type Locker,
  type LockerItem,
} from '../stock/index.ts';
import { formatUtc, parseUtc } from '../time/index.ts';
import type { lockerFile } from './passage-file.ts';

export type LockerFile = z.infer<typeof lockerFile>;

const KEYS: Partial<Record<keyof LockerItem, string>> = {
  onBoardAmount: 'onBoard',
  keepAmount: 'keep',
  readyEpochMs: 'readyUtc',
};

/**
 * The locker, or `passage.item-twice`, `passage.item-units`, `passage.bar-*`, `passage.not-a-bar`, and
 * `stock.unit-mismatch` where a job needs or makes an item in another unit. Instants are checked with the orders.
 *
 * @param jobs empty when they could not be read
 */
export function readLocker(file: LockerFile, where: string, jobs: readonly Job[]): Result<Locker> {
  const locker = lockerOf(file);
  const twice = lockerProblems(locker.items, {
    place: (index, field) => `${where}[${index}].${KEYS[field] ?? field}`,
    codeWord: 'passage',
    barWords: '"kind": "bar"',
  });
  const needs = jobs.flatMap((job) => [...job.steps.flatMap((step) => step.materials), ...job.makes]);
  const counted = materialsShort(locker, needs);
  const units = counted.ok
    ? []
    : counted.problems.map((problem) => ({ ...problem, where: `${where}, ${problem.where}` }));
  return okUnless([...twice, ...onlyOnce([...units, ...makeProblems(jobs, where)])], () => locker);
}

/** The lines of a file as they stand; an instant that is none counts as none. */
export function lockerOf(file: LockerFile): Locker {
  return {
    items: file.map(({ onBoard, keep, readyUtc, ...line }) => {
      const ready = readyUtc === undefined ? null : parseUtc(readyUtc, '');
      return {
        ...LOCKER_ITEM_DEFAULTS,
        ...line,
        onBoardAmount: onBoard,
        keepAmount: keep ?? 0,
        readyEpochMs: ready !== null && ready.ok ? ready.value : null,
      };
    }),
  };
}

/** The lines as a passage file holds them; what is default is left out. */
export function toLockerFile(locker: Locker): LockerFile {
  return locker.items.map((line) => ({
    item: line.item,
    unit: line.unit,
    onBoard: line.onBoardAmount,
    ...(line.keepAmount === 0 ? {} : { keep: line.keepAmount }),
    ...(line.kind === 'material' ? {} : { kind: line.kind }),
    ...(line.place === null ? {} : { place: line.place }),
    ...(line.lengthMm === null ? {} : { lengthMm: line.lengthMm }),
    ...(line.diameterMm === null ? {} : { diameterMm: line.diameterMm }),
    ...(line.readyEpochMs === null ? {} : { readyUtc: formatUtc(line.readyEpochMs) }),
  }));
}

/** What a job makes is of use only in the unit it is needed in. */
function makeProblems(jobs: readonly Job[], where: string): Problem[] {
  const made = jobs.flatMap((job) => job.makes.map((make) => ({ ...make, jobId: job.id })));
  const needs = jobs.flatMap((job) => job.steps.flatMap((step) => step.materials));
  return needs.flatMap((need) => {
    const other = made.find((make) => itemKey(make.item) === itemKey(need.item) && make.unit !== need.unit);
    return other === undefined ? [] : [madeUnit(need, other, `${where}, ${need.item}`)];
  });
}

const madeUnit = (need: MaterialNeed, make: MaterialNeed & { jobId: string }, where: string): Problem => ({
  code: 'stock.unit-mismatch',
  where,
  what: `${need.amount} ${need.unit} of ${need.item} is needed, but "${make.jobId}" makes it in ${make.unit}.`,
  expected: `the same unit in both, such as ${need.unit}`,
  remedy: `Let "${make.jobId}" make it in ${need.unit}, or name the need in ${make.unit}.`,
});

/** Several jobs that need one item in the wrong unit are one mistake in the locker. */
const onlyOnce = (problems: readonly Problem[]): readonly Problem[] =>
  problems.filter((problem, index) => problems.findIndex(({ where }) => where === problem.where) === index);
