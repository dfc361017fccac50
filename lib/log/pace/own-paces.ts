import type { Job } from '../../jobs/index.ts';
import {
  paceText,
  WORK_KIND_NAMES,
  WORK_KINDS,
  type PaceByWork,
  type Watchkeeper,
  type WorkKind,
  type WorkPace,
} from '../../person/index.ts';
import type { NumberedEntry } from '../entry.ts';
import { type MeasureOptions, type WorkMeasure, workMeasures } from './measures.ts';

/** What the default weighs against single pieces of work; our choice, no source. */
const DEFAULT_COUNT = 3;

/** What is held of the watchkeeper before the log is read. */
export interface OwnPaceOptions extends MeasureOptions {
  /** Usual pace: what every kind of work is shrunk towards. Default 1. */
  readonly usualRatio?: number;
  /** What is known of kinds of work already, as in a passage file. */
  readonly known?: PaceByWork;
}

/** Own pace at one kind of work. */
export interface OwnPace extends WorkPace {
  readonly workKind: WorkKind;
  /** Mean ratio of the pieces in the log; null: it has none. */
  readonly ownRatio: number | null;
  /** Pieces in the log; `sessionCount` holds those known before, too. */
  readonly logCount: number;
  /** How many of them lay outside `PACE_RATIO_RANGE` and were brought to its end. */
  readonly clampedCount: number;
  /** What it is shrunk towards. */
  readonly defaultRatio: number;
}

/**
 * The watchkeeper's own pace by kind of work: (n · own + 3 · default) / (n + 3), n pieces of work with the mean ratio own.
 * What was known before enters as the pieces it was learned from, so the order of learning is no matter.
 *
 * @param entries the log, corrections not yet applied
 * @param jobs of the passage as it was before the log
 * @returns one for each kind with work in the log or known before, in the order of `WORK_KINDS`
 */
export function ownPaces(
  entries: readonly NumberedEntry[],
  jobs: readonly Job[],
  options: OwnPaceOptions = {},
): readonly OwnPace[] {
  return pacesOf(workMeasures(entries, jobs, options), options);
}

/** The same from pieces that are measured already. */
export function pacesOf(
  measures: readonly WorkMeasure[],
  { usualRatio = 1, known = {} }: Pick<OwnPaceOptions, 'usualRatio' | 'known'>,
): readonly OwnPace[] {
  return WORK_KINDS.flatMap((workKind): OwnPace[] => {
    const counted = measures.filter((measure) => measure.workKind === workKind && measure.ratio !== null);
    const before = known[workKind];
    if (counted.length === 0 && before === undefined) return [];
    const defaultRatio = before?.ratio ?? usualRatio;
    const defaultCount = DEFAULT_COUNT + (before?.sessionCount ?? 0);
    const sumRatio = counted.reduce((sum, { ratio }) => sum + (ratio ?? 0), 0);
    return [
      {
        workKind,
        ratio: (sumRatio + defaultCount * defaultRatio) / (counted.length + defaultCount),
        sessionCount: counted.length + (before?.sessionCount ?? 0),
        ownRatio: counted.length === 0 ? null : sumRatio / counted.length,
        logCount: counted.length,
        clampedCount: counted.filter(({ ratio, rawRatio }) => ratio !== rawRatio).length,
        defaultRatio,
      },
    ];
  });
}

/** The watchkeeper with these paces in place of what was known of the same kinds of work. */
export function withOwnPaces(watchkeeper: Watchkeeper, paces: readonly OwnPace[]): Watchkeeper {
  if (paces.length === 0) return watchkeeper;
  const learned: PaceByWork = Object.fromEntries(
    paces.map(({ workKind, ratio, sessionCount }) => [workKind, { ratio, sessionCount }]),
  );
  return { ...watchkeeper, paceByWork: { ...watchkeeper.paceByWork, ...learned } };
}

/** `your factor 1.4 (n = 5) for sewing`. */
export const ownPaceLine = ({ workKind, ratio, sessionCount }: OwnPace): string =>
  `your factor ${paceText(ratio)} (n = ${sessionCount}) for ${WORK_KIND_NAMES[workKind]}`;
