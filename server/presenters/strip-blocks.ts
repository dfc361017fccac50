import type { Plan, PlanEntry, PlanPicture } from '../../lib/planner/index.ts';
import type { Block, BlockLane, TimeAxis } from './strip-model.ts';
import { durationText, epochOf, minutesBetween, type TimeTexts } from './time-texts.ts';
import { wordLines } from './word-lines.ts';

/** Longest line of a label beside a narrow column. */
const LINE_CHARACTERS = 14;

export interface BlocksInput {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  readonly chosenJobId: string | null;
  readonly axis: TimeAxis;
  readonly times: TimeTexts;
}

/** Work on deck (cockpit, foredeck, aloft and overside included), work below, sleep. */
export function blockLanes(input: BlocksInput): BlockLane[] {
  const chosenBelow = input.plan.entries.some((entry) => entry.jobId === input.chosenJobId && isBelow(entry));
  const lane = (id: PlannedLane, name: string): BlockLane => ({
    id,
    name,
    blocks: blocksOf(input, id),
    windows: id === (chosenBelow ? 'below' : 'deck') ? startWindows(input) : [],
  });
  return [lane('deck', 'On deck'), lane('below', 'Below'), lane('sleep', 'Sleep')];
}

const isBelow = (entry: PlanEntry): boolean => entry.place === 'below';

type PlannedLane = Exclude<BlockLane['id'], 'starts'>;

function laneOf(entry: PlanEntry): PlannedLane | null {
  if (entry.kind === 'sleep') return 'sleep';
  if (entry.kind === 'lookout') return null;
  return isBelow(entry) ? 'below' : 'deck';
}

function blocksOf(input: BlocksInput, id: PlannedLane): Block[] {
  const labelled = new Set<string>();
  return input.plan.entries
    .filter((entry) => laneOf(entry) === id)
    .filter((entry) => isShown(entry, input.axis))
    .map((entry) => {
      const isFirst = entry.kind === 'work' && entry.jobId !== null && !labelled.has(entry.jobId);
      if (isFirst && entry.jobId !== null) labelled.add(entry.jobId);
      return block(input, entry, isFirst);
    });
}

const isShown = (entry: PlanEntry, axis: TimeAxis): boolean =>
  epochOf(entry.startUtc) < axis.toEpochMs && epochOf(entry.endUtc) > axis.fromEpochMs;

function block({ plan, chosenJobId, axis, times }: BlocksInput, entry: PlanEntry, isFirst: boolean): Block {
  const job = plan.jobs.find((planned) => planned.jobId === entry.jobId);
  const name = entry.kind === 'sleep' ? 'Sleep' : (job?.name ?? 'Work');
  const took = durationText(minutesBetween(entry.startUtc, entry.endUtc));
  const text = isFirst ? name : '';
  return {
    fromEpochMs: Math.max(axis.fromEpochMs, epochOf(entry.startUtc)),
    toEpochMs: Math.min(axis.toEpochMs, epochOf(entry.endUtc)),
    kind: blockKind(entry, job?.status === 'conditional'),
    isChosen: job !== undefined && job.jobId === chosenJobId,
    text,
    lines: wordLines(text, { characters: LINE_CHARACTERS, lineCount: 2 }),
    title: `${name}, ${times.dayTime(epochOf(entry.startUtc))}, ${took}`,
  };
}

function blockKind(entry: PlanEntry, conditional: boolean): Block['kind'] {
  if (entry.kind === 'sleep') return 'sleep';
  if (entry.kind === 'wait') return 'wait';
  return conditional ? 'conditional' : 'planned';
}

function startWindows({ picture, chosenJobId, axis }: BlocksInput): BlockLane['windows'] {
  const windows = picture.jobs.find((job) => job.jobId === chosenJobId)?.windows ?? [];
  return windows
    .filter((span) => span.firstStartEpochMs < axis.toEpochMs && span.lastStartEpochMs >= axis.fromEpochMs)
    .map((span) => ({
      fromEpochMs: Math.max(axis.fromEpochMs, span.firstStartEpochMs),
      toEpochMs: Math.min(axis.toEpochMs, span.lastStartEpochMs),
      conditional: span.conditional,
    }));
}
