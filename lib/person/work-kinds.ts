import type { Hands } from './time-factors.ts';

/**
 * Kinds of work by what the hands do, since that is what a person is quick or slow at: a good seamstress may be slow with a
 * winch. Fewer kinds would mix the two; more would never see enough work to say anything.
 */
export const WORK_KINDS = ['hauling', 'fitting', 'sewing', 'aloft', 'below'] as const;
export type WorkKind = (typeof WORK_KINDS)[number];

/** As they stand after a factor: `your factor 1.4 (n = 5), sewing`. */
export const WORK_KIND_NAMES: Readonly<Record<WorkKind, string>> = {
  hauling: 'hauling and handling sails',
  fitting: 'bolts, shackles and rope work',
  sewing: 'sewing',
  aloft: 'aloft and overside',
  below: 'work below',
};

/** What of a step decides its kind. */
export interface KindedStep {
  readonly place: 'below' | 'cockpit' | 'deck' | 'foredeck' | 'aloft' | 'overside';
  readonly hands: Hands;
}

/**
 * The kind of a step: in the bosun's chair or over the side it is that, whatever the hands do; the step that sews a seam
 * is sewing wherever it is done, and so is other fine work on a sail outside (patches, tape, marking); below it is work
 * below; outside it is hauling with the whole hand, and fitting with the fingers.
 *
 * @param of group of its job, and whether it is the step that sews the job's seam
 */
export function workKindOf(step: KindedStep, of: { readonly group: string; readonly isSeam: boolean }): WorkKind {
  if (step.place === 'aloft' || step.place === 'overside') return 'aloft';
  if (of.isSeam) return 'sewing';
  if (step.place === 'below') return 'below';
  if (of.group === 'sail-repair' && step.hands === 'fine') return 'sewing';
  return step.hands === 'gross' ? 'hauling' : 'fitting';
}

/** Own pace at one kind of work, as the log gives it. */
export interface WorkPace {
  /** Times as long as the times given; shrunk towards the usual pace already. */
  readonly ratio: number;
  /** Pieces of work it was learned from. */
  readonly sessionCount: number;
}

/** Kinds of which nothing is known are left out. */
export type PaceByWork = { readonly [kind in WorkKind]?: WorkPace };

/** A ratio of pace outside is taken for a slip of the pen or the clock, not for pace; our choice, no source. */
export const PACE_RATIO_RANGE = { leastRatio: 0.3, mostRatio: 4 } as const;

/** `your factor 1.4 (n = 5), sewing`. */
export const workPaceText = (kind: WorkKind, { ratio, sessionCount }: WorkPace): string =>
  `your factor ${paceText(ratio)} (n = ${sessionCount}), ${WORK_KIND_NAMES[kind]}`;

/** Two decimals where the second tells something. */
export const paceText = (ratio: number): string => ratio.toFixed(2).replace(/0$/, '');
