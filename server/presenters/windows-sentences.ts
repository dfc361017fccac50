import type { HourStart, NearestMiss, WindowsPicture } from '../../lib/planner/index.ts';
import { type SlotGrid, slotEpochMs } from '../../lib/time/index.ts';
import type { BlockWindow } from '../../lib/windows/index.ts';
import { of100 } from './amount-texts.ts';
import { handlingText } from './handling-text.ts';
import { joined, limitName, marginTexts } from './limit-texts.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { type ChosenWindows, windowsHref } from './windows-choice.ts';

/** One thing said, and where it leads. */
export interface Sentence {
  readonly text: string;
  /** A start that can be looked at. */
  readonly link?: { readonly text: string; readonly href: string };
}

interface SentencesInput {
  readonly view: PassageView;
  readonly chosen: ChosenWindows;
  readonly picture: WindowsPicture;
  /** All of the job. */
  readonly windows: readonly BlockWindow[];
  /** Those of the chosen part and handling. */
  readonly own: readonly BlockWindow[];
  readonly grid: SlotGrid;
  readonly times: TimeTexts;
}

/** When to start; where there is no start, the nearest, what stands against it and where to look instead. */
export function windowsSentences(input: SentencesInput): Sentence[] {
  const [first] = input.own.toSorted((a, b) => a.firstStartSlot - b.firstStartSlot);
  return first === undefined ? noWindow(input) : [firstWindow(input, first), ...others(input), whoseChance(input)];
}

/** Why the plan may say another figure for the same job. */
function whoseChance({ view, chosen, times }: SentencesInput): Sentence {
  const { plan } = view;
  const job = plan.jobs.find(({ jobId }) => jobId === chosen.jobId);
  const own = `Chances here are those of this job alone, with the boat on the nominal track, on the ${plan.forecast.members} scenarios planned on.`;
  if (job === undefined || job.startUtc === null || job.probability === null) return { text: own };
  const start = times.dayTime(epochOf(job.startUtc));
  return {
    text: `${own} The plan’s figure, ${of100(job.probability)} of 100 from ${start}, is judged on fresh draws, where the plan has the boat by then.`,
  };
}

function firstWindow({ chosen, grid, times }: SentencesInput, window: BlockWindow): Sentence {
  const span = times.span(
    { fromEpochMs: slotEpochMs(grid, window.firstStartSlot), toEpochMs: slotEpochMs(grid, window.lastStartSlot) },
    'and',
  );
  const bestEpochMs = slotEpochMs(grid, window.bestStartSlot);
  const room = window.binding === null ? null : marginTexts(window.binding, times);
  const binds = room === null ? 'no limit is near' : `${room.binds} binds, ${room.room} to spare`;
  const unknown = window.conditional ? ` Conditional: ${joined(window.unknownLimits.map(limitName))} unknown.` : '';
  return {
    text: `Start between ${span}. The best start stays inside its limits in ${of100(window.probability)} of 100; ${binds}.${unknown}`,
    link: { text: `Look at ${times.dayTime(bestEpochMs)}`, href: windowsHref(chosen, bestEpochMs) },
  };
}

function others({ own, grid, times }: SentencesInput): Sentence[] {
  const [, second] = own.toSorted((a, b) => a.firstStartSlot - b.firstStartSlot);
  if (second === undefined) return [{ text: 'It is the only window in this forecast under this handling.' }];
  const count = own.length - 1;
  const next = times.dayTime(slotEpochMs(grid, second.firstStartSlot));
  return [{ text: count === 1 ? `One more opens ${next}.` : `${count} more follow; the next opens ${next}.` }];
}

function noWindow(input: SentencesInput): Sentence[] {
  const { view, chosen, picture, windows, times } = input;
  const wanted = of100(picture.wantedProbability);
  const how = handlingText(view.picture, picture.asked.handlingId);
  const best = picture.surestStart;
  const miss = view.plan.jobs.find((job) => job.jobId === chosen.jobId)?.nearestMiss ?? null;
  return [
    { text: `No start stays inside the limits in ${wanted} of 100. Handling: ${how}.` },
    best === null
      ? { text: 'It fits nowhere before the forecast ends.' }
      : nearest(best, isSameStart(miss, best.atEpochMs) ? miss.text : null, { chosen, times }),
    ...(miss === null ? [] : [{ text: `What would help: ${miss.wouldHelp}` }]),
    ...elsewhere(view, chosen, windows),
  ];
}

const isSameStart = (miss: NearestMiss | null, atEpochMs: number): miss is NearestMiss =>
  miss !== null && miss.startUtc !== null && epochOf(miss.startUtc) === atEpochMs;

/** The plan's own words where it speaks of the same start; else what is tightest for it, and by how much. */
function nearest(
  best: HourStart,
  planText: string | null,
  { chosen, times }: Pick<SentencesInput, 'chosen' | 'times'>,
): Sentence {
  const start = `The nearest start is ${times.dayTime(best.atEpochMs)}: ${of100(best.probability)} of 100`;
  return {
    text: planText ?? `${start}; ${againstText(best, times)}.`,
    link: { text: 'See what stands against it', href: windowsHref(chosen, best.atEpochMs) },
  };
}

/** `sea over by 0.3 m, −0.4 σ (1.9 of 1.6 m at Fri 13:20)`; a limit that the median keeps says what is left of it. */
function againstText({ binding, unknownLimits }: HourStart, times: TimeTexts): string {
  const unknown = unknownLimits.length === 0 ? '' : `, and ${joined(unknownLimits.map(limitName))} unknown`;
  if (binding === null) return `no limit is known there${unknown}`;
  const { binds, room, measured } = marginTexts(binding, times);
  const isAmount = binding.unit !== 'light' && binding.unit !== 'yes/no';
  const left = isAmount && binding.margin >= 0 ? 'with only ' : '';
  return `${binds} ${left}${room}${left === '' ? '' : ' to spare in the median'} (${measured})${unknown}`;
}

/** Other handlings under which this part has windows. */
function elsewhere({ picture }: PassageView, chosen: ChosenWindows, windows: readonly BlockWindow[]): Sentence[] {
  const ids = new Set(windows.filter(({ blockIndex }) => blockIndex === chosen.partIndex).map((w) => w.handlingId));
  return [...ids].map((handlingId) => ({
    text: `There are windows under another handling: ${handlingText(picture, handlingId)}.`,
    link: { text: 'Show them', href: windowsHref({ ...chosen, handlingId }) },
  }));
}
