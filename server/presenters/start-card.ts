import type { LimitLook, StartLook } from '../../lib/planner/index.ts';
import { lookEnds } from '../../lib/planner/index.ts';
import { formatAt, formatUtc, MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';
import { figureText, of100, plusMinus } from './amount-texts.ts';
import { joined, limitName, marginTexts } from './limit-texts.ts';
import type { Fact } from './fact.ts';
import type { JobDocument } from './job-document.ts';
import { type StartLock, startLock } from './job-orders.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness } from './planned-alertness.ts';
import { plannedInstead, startClashes } from './start-clashes.ts';
import { durationText, type TimeTexts } from './time-texts.ts';
import { startFields, type TrialStart } from './trial-start.ts';
import { type ChosenWindows, windowsHref } from './windows-choice.ts';
import { lightWords } from './light-words.ts';
import { bareFigure, quantityText, WIND } from './units/hour-figures.ts';

/** Why a start would do, or would not. */
export interface StartCard {
  readonly jobName: string;
  readonly when: string;
  readonly whenUtc: string;
  /** The sentence that decides. */
  readonly verdict: string;
  /** What is unknown, said apart; null: nothing is. */
  readonly unknown: string | null;
  readonly facts: readonly Fact[];
  /** Every known limit, tightest first. */
  readonly limits: readonly LimitRow[];
  /** Where the plan has it, and how far off this start is. */
  readonly planned: string;
  /** What stands in its way in the plan, one sentence each; none: says so. */
  readonly clashes: readonly string[];
  readonly moves: readonly { readonly text: string; readonly href: string }[];
  /** Locks the job to this start; null: it cannot be locked from here. */
  readonly lock: StartLock | null;
  /** Tries this start in the plan without saving it; null: it cannot be tried from here. */
  readonly trial: TrialStart | null;
}

export interface LimitRow {
  readonly limit: string;
  readonly room: string;
  readonly measured: string;
  /** `35 of 100, first at Sat 12:30`; `none` */
  readonly broken: string;
  readonly isBroken: boolean;
}

interface StartInput {
  /** The passage as it is kept now; absent or null: it cannot be read. */
  readonly document?: JobDocument | null;
  readonly jobName: string;
  readonly view: PassageView;
  readonly chosen: ChosenWindows;
  readonly look: StartLook;
  readonly wantedProbability: number;
  readonly leastAlertnessPoints: number | null;
  readonly slotMin: number;
  readonly times: TimeTexts;
}

export function startCard(input: StartInput): StartCard {
  const { look, times, jobName } = input;
  const startUtc = formatUtc(look.startEpochMs);
  const { jobId, blockIndex: partIndex, handlingId } = look.asked;
  const lock = startLock({
    document: input.document ?? null,
    view: input.view,
    jobId,
    partIndex,
    handlingId,
    startUtc,
  });
  return {
    jobName,
    when: times.full(look.startEpochMs),
    whenUtc: times.utc(look.startEpochMs),
    verdict: verdictText(input),
    unknown:
      look.unknownLimits.length === 0
        ? null
        : `Conditional: ${joined(look.unknownLimits.map(limitName))} unknown. The figures count the known limits only.`,
    facts: [...timeFacts(input), ...personFacts(input)],
    limits: look.limits.map((limit) => limitRow(limit, times)),
    planned: plannedInstead(input),
    clashes: startClashes(input),
    moves: moves(input),
    lock,
    // What can be locked from here can be tried.
    trial:
      lock === null
        ? null
        : startFields({ version: lock.version, jobId, partIndex, shownHandlingId: handlingId, startUtc }),
  };
}

function verdictText({ look, wantedProbability, times }: StartInput): string {
  if (look.refused === 'too-slow') {
    return 'The work cannot begin here: wind, sea, cold or dark would slow it more than threefold.';
  }
  if (look.refused === 'past-forecast' || look.probability === null) {
    return 'The work cannot begin here: it would last past the end of the forecast, and what lies there is unknown.';
  }
  const chance = `${of100(look.probability)} of 100 ${plusMinus(look.probabilitySd)}`.trim();
  const wanted = of100(wantedProbability);
  if (look.probability >= wantedProbability) return `Stays inside its limits in ${chance}; you want ${wanted}.`;
  const worst = look.limits.toSorted((a, b) => b.brokenShare - a.brokenShare)[0];
  const why =
    worst === undefined || worst.firstBrokenEpochMs === null
      ? 'the work would outlast the time the weather is asked to hold'
      : `${limitName(worst.limit)} breaks in ${of100(worst.brokenShare)} of 100, first at ${times.dayTime(worst.firstBrokenEpochMs)}`;
  return `Stays inside its limits in only ${chance}; you want ${wanted}: ${why}.`;
}

function timeFacts({ look, times }: StartInput): Fact[] {
  const ends = lookEnds(look);
  const wind = look.deckWindKn;
  const windFact: Fact[] =
    wind === null
      ? [{ term: 'Deck wind at the start', figure: 'unknown', rest: '' }]
      : [
          {
            term: 'Deck wind at the start',
            figure: quantityText(wind.p50, WIND, times.units),
            rest: `8 in 10 from ${bareFigure(wind.p10, WIND, times.units)} to ${bareFigure(wind.p90, WIND, times.units)}`,
          },
        ];
  if (ends === null || look.plannedMin === null) return windFact;
  const slow =
    look.tooSlowShare === 0 ? {} : { below: `too slow to be done in that time in ${of100(look.tooSlowShare)} of 100` };
  return [
    { term: 'Takes', figure: durationText(look.plannedMin), rest: `to ${times.dayTime(ends.endEpochMs)}`, ...slow },
    {
      term: 'Weather must hold',
      figure: durationText(look.referenceMin ?? 0),
      rest: `to ${times.dayTime(ends.holdEpochMs)}`,
    },
    ...windFact,
    {
      term: 'Light',
      figure: lightWords[look.lightAtStart],
      rest: look.lightAtEnd === null ? '' : `${lightWords[look.lightAtEnd]} at the end`,
    },
  ];
}

/** How rested the plan leaves the sailor at that hour. */
function personFacts({ view, look, leastAlertnessPoints: least }: StartInput): Fact[] {
  const { slotEpochMs } = view.picture;
  const i = slotEpochMs.findLastIndex((epochMs) => epochMs <= look.startEpochMs);
  const points = plannedAlertness(view)[i];
  if (points === undefined || Number.isNaN(points))
    return [{ term: 'You, by the plan', figure: 'unknown', rest: 'no sleep is planned so far ahead' }];
  const needed = least === null ? '' : `at least ${figureText(Math.ceil(least * 10 - 1e-6) / 10, 'points')} needed`;
  const short = least !== null && points < least ? { below: 'too tired for it: sleep first' } : {};
  return [{ term: 'You, by the plan', figure: `${points.toFixed(1)} points`, rest: needed, ...short }];
}

function limitRow(look: LimitLook, times: TimeTexts): LimitRow {
  const { room, binds, measured } = marginTexts(look, times);
  return {
    limit: binds,
    room,
    measured,
    broken:
      look.firstBrokenEpochMs === null
        ? 'none'
        : `${of100(look.brokenShare)} of 100, first at ${times.dayTime(look.firstBrokenEpochMs)}`,
    isBroken: look.firstBrokenEpochMs !== null,
  };
}

/** The same look a little earlier or later, as far as the forecast goes. */
function moves({ view, chosen, look, slotMin }: StartInput): StartCard['moves'] {
  const { slotEpochMs } = view.picture;
  const steps = [
    { text: '1 h earlier', byMs: -MS_PER_H },
    { text: `${slotMin} min earlier`, byMs: -slotMin * MS_PER_MIN },
    { text: `${slotMin} min later`, byMs: slotMin * MS_PER_MIN },
    { text: '1 h later', byMs: MS_PER_H },
  ];
  return steps
    .map(({ text, byMs }) => ({ text, atEpochMs: look.startEpochMs + byMs }))
    .filter(({ atEpochMs }) => atEpochMs >= (slotEpochMs[0] ?? 0) && atEpochMs <= (slotEpochMs.at(-1) ?? 0))
    .map(({ text, atEpochMs }) => ({ text, href: windowsHref(chosen, atEpochMs) }));
}

/** `2026-05-28T13:50`, ship's time, for a field of a form. */
export const shipField = (epochMs: number, shipTimeOffsetMin: number): string =>
  formatAt(epochMs, shipTimeOffsetMin, "yyyy-MM-dd'T'HH:mm");
