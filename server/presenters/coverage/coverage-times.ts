import { LONGEST_STEP_H } from '../../../lib/forecast/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../../lib/time/index.ts';
import type { TimeTexts } from '../time-texts.ts';
import type { CoverageData, FileCovered, QuantityCovered, RunCovered, StepCovered } from './coverage-model.ts';
import { joined } from '../limit-texts.ts';

/** The reach of a forecast in time, everything at its instant, nothing drawn. */
export interface CoverageTimes {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  /** Midnights of the ship's clock. */
  readonly midnights: readonly number[];
  readonly days: readonly { readonly fromEpochMs: number; readonly toEpochMs: number; readonly text: string }[];
  readonly marks: readonly CoverageMark[];
  readonly lines: readonly CoverageLine[];
}

export interface CoverageMark {
  readonly atEpochMs: number;
  readonly text: string;
  readonly kind: 'base' | 'now' | 'end';
}

export interface CoverageLine {
  readonly key: string;
  readonly kind: 'file' | 'quantity' | 'missing';
  readonly name: string;
  /** Runs, base time. */
  readonly note: string;
  /** What its steps say anything of. */
  readonly held: readonly Span[];
  /** The rest of the hours shown. */
  readonly gaps: readonly Span[];
  readonly steps: readonly number[];
  readonly baseEpochMs: number | null;
  /** Hours at which it is known where the boat will be; null: not asked of this line. */
  readonly along: { readonly known: readonly Span[]; readonly silent: readonly Span[] } | null;
}

export interface Span {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
}

export interface TimesShown {
  readonly data: CoverageData;
  readonly nowEpochMs: number;
  readonly missing: readonly string[];
  readonly times: TimeTexts;
  readonly shipTimeOffsetMin: number;
  /** How a file is called on pages. */
  readonly fileName: (reference: string) => string;
}

/** A base farther back is told in words alone. */
const BASE_SHOWN_H = 36;
const AFTER_ARRIVAL_H = 6;

export function coverageTimes(shown: TimesShown): CoverageTimes {
  const { data, nowEpochMs, times } = shown;
  const span = spanShown(data, nowEpochMs);
  const midnights = midnightsIn(span, shown.shipTimeOffsetMin * MS_PER_MIN);
  const edges = [span.fromEpochMs, ...midnights, span.toEpochMs];
  return {
    ...span,
    midnights,
    days: edges.slice(1).map((toEpochMs, i) => {
      const fromEpochMs = edges[i] ?? span.fromEpochMs;
      return { fromEpochMs, toEpochMs, text: times.day(fromEpochMs) };
    }),
    marks: marksOf(shown, span),
    lines: [
      ...data.files.map((file) => fileLine(file, shown, span)),
      ...grouped(data.quantities).flatMap((group) => quantityLines(group, shown, span)),
      ...(shown.missing.length === 0 ? [] : [missingLine(shown.missing, span)]),
    ],
  };
}

function spanShown(data: CoverageData, nowEpochMs: number): Span {
  const bases = [...data.files, ...data.quantities.flatMap(({ runs }) => runs)].map(({ baseEpochMs }) => baseEpochMs);
  const shownBases = bases.filter((at) => at > nowEpochMs - BASE_SHOWN_H * MS_PER_H);
  const endEpochMs =
    data.arrivesEpochMs === null
      ? data.endEpochMs
      : Math.max(data.planEndEpochMs, data.arrivesEpochMs + AFTER_ARRIVAL_H * MS_PER_H);
  const fromEpochMs = Math.min(nowEpochMs, data.fromEpochMs, ...shownBases) - 2 * MS_PER_H;
  return { fromEpochMs, toEpochMs: Math.max(Math.min(endEpochMs, data.endEpochMs), fromEpochMs + 24 * MS_PER_H) };
}

function midnightsIn({ fromEpochMs, toEpochMs }: Span, offsetMs: number): number[] {
  const dayMs = 24 * MS_PER_H;
  const first = (Math.floor((fromEpochMs + offsetMs) / dayMs) + 1) * dayMs - offsetMs;
  return Array.from({ length: Math.max(0, Math.ceil((toEpochMs - first) / dayMs)) }, (_, i) => first + i * dayMs);
}

function marksOf({ data, nowEpochMs, times }: TimesShown, span: Span): CoverageMark[] {
  const marks: CoverageMark[] = [
    { atEpochMs: nowEpochMs, text: `now ${times.time(nowEpochMs)}`, kind: 'now' },
    { atEpochMs: data.planEndEpochMs, text: `plan ends ${times.dayTime(data.planEndEpochMs)}`, kind: 'end' },
    ...(data.arrivesEpochMs === null
      ? []
      : [
          {
            atEpochMs: data.arrivesEpochMs,
            text: `end of the track ${times.dayTime(data.arrivesEpochMs)}`,
            kind: 'end' as const,
          },
        ]),
  ];
  return marks.filter(({ atEpochMs }) => atEpochMs >= span.fromEpochMs && atEpochMs <= span.toEpochMs);
}

function fileLine(file: FileCovered, { times, fileName }: TimesShown, span: Span): CoverageLine {
  const steps = file.stepEndsEpochMs.map((at) => ({ startEpochMs: at, endEpochMs: at }));
  return {
    key: `file ${file.reference} ${file.baseEpochMs}`,
    kind: 'file',
    name: fileName(file.reference),
    note: `run of ${times.utc(file.baseEpochMs)}, ${everyText(file.stepEndsEpochMs)}`,
    ...hoursOf({ name: '', kind: 'instant', baseEpochMs: file.baseEpochMs, steps }, span),
    baseEpochMs: inSpan(file.baseEpochMs, span),
    along: null,
  };
}

/** Quantities of which the same is to be drawn. */
function grouped(quantities: readonly QuantityCovered[]): (readonly QuantityCovered[])[] {
  const groups = new Map<string, QuantityCovered[]>();
  for (const quantity of quantities) {
    const drawn = quantity.runs.map((run) => [
      run.name,
      run.baseEpochMs,
      heldSpans(run),
      run.steps.map(({ endEpochMs }) => endEpochMs),
    ]);
    const key = JSON.stringify([drawn, quantity.silent]);
    groups.set(key, [...(groups.get(key) ?? []), quantity]);
  }
  return [...groups.values()];
}

function quantityLines(group: readonly QuantityCovered[], shown: TimesShown, span: Span): CoverageLine[] {
  const [first] = group;
  if (first === undefined) return [];
  const name = joined(group.map((quantity) => quantity.name));
  const { data, times } = shown;
  const silent = first.silent.flatMap((one) => clipped(one, span) ?? []);
  const way = { fromEpochMs: data.fromEpochMs, toEpochMs: Math.min(data.endEpochMs, span.toEpochMs) };
  return first.runs.map((run, i) => ({
    key: `${first.id} ${run.name}`,
    kind: 'quantity',
    name: i === 0 ? name : '',
    note: `${run.name}, ${everyText(run.steps.map(({ endEpochMs }) => endEpochMs))}, run of ${times.utc(run.baseEpochMs)}`,
    ...hoursOf(run, span),
    baseEpochMs: inSpan(run.baseEpochMs, span),
    along: i === 0 ? { known: restOf(silent, way), silent } : null,
  }));
}

/** `every 3 h`, `every 3 to 6 h`, `one step` */
function everyText(stepEndsEpochMs: readonly number[]): string {
  const apart = apartText(stepEndsEpochMs);
  return apart === null ? 'one step' : `every ${apart}`;
}

/** How far apart steps end: `3 h`, `3 to 6 h`; null: there is one. */
export function apartText(stepEndsEpochMs: readonly number[]): string | null {
  const ends = [...new Set(stepEndsEpochMs)].toSorted((a, b) => a - b);
  const stepsH = ends.slice(1).map((end, i) => Math.round((10 * (end - (ends[i] ?? end))) / MS_PER_H) / 10);
  if (stepsH.length === 0) return null;
  const [least, most] = [Math.min(...stepsH), Math.max(...stepsH)];
  return least === most ? `${most} h` : `${least} to ${most} h`;
}

const missingLine = (missing: readonly string[], span: Span): CoverageLine => ({
  key: 'missing',
  kind: 'missing',
  name: joined(missing),
  note: 'not in any file',
  held: [],
  gaps: [span],
  steps: [],
  baseEpochMs: null,
  along: null,
});

const inSpan = (atEpochMs: number, { fromEpochMs, toEpochMs }: Span): number | null =>
  atEpochMs >= fromEpochMs && atEpochMs <= toEpochMs ? atEpochMs : null;

function hoursOf(run: RunCovered, span: Span): Pick<CoverageLine, 'held' | 'gaps' | 'steps'> {
  const held = heldSpans(run).flatMap((one) => clipped(one, span) ?? []);
  const steps = run.steps.map(({ endEpochMs }) => endEpochMs).filter((at) => inSpan(at, span) !== null);
  return { held, gaps: restOf(held, span), steps: [...new Set(steps)] };
}

/** Hours that can be read of a run: between instants half a day apart at most, within intervals. */
export function heldSpans({ kind, steps }: Pick<RunCovered, 'kind' | 'steps'>): Span[] {
  const mostMs = kind === 'instant' ? LONGEST_STEP_H * MS_PER_H : 0;
  const spans: Span[] = [];
  for (const { startEpochMs, endEpochMs } of byStart(steps)) {
    const last = spans.at(-1);
    if (last !== undefined && startEpochMs - last.toEpochMs <= mostMs)
      spans[spans.length - 1] = { ...last, toEpochMs: Math.max(last.toEpochMs, endEpochMs) };
    else spans.push({ fromEpochMs: startEpochMs, toEpochMs: endEpochMs });
  }
  return spans;
}

const byStart = (steps: readonly StepCovered[]): StepCovered[] =>
  steps.toSorted((a, b) => a.startEpochMs - b.startEpochMs || a.endEpochMs - b.endEpochMs);

function clipped({ fromEpochMs, toEpochMs }: Span, span: Span): Span | null {
  const [from, to] = [Math.max(fromEpochMs, span.fromEpochMs), Math.min(toEpochMs, span.toEpochMs)];
  return from < to ? { fromEpochMs: from, toEpochMs: to } : null;
}

/** What of a span lies in none of others, which are in order and do not overlap. */
export function restOf(taken: readonly Span[], span: Span): Span[] {
  const edges = [span.fromEpochMs, ...taken.flatMap((one) => [one.fromEpochMs, one.toEpochMs]), span.toEpochMs];
  const rest: Span[] = [];
  for (let i = 0; i + 1 < edges.length; i += 2) {
    const one = clipped({ fromEpochMs: edges[i] ?? 0, toEpochMs: edges[i + 1] ?? 0 }, span);
    if (one !== null) rest.push(one);
  }
  return rest;
}
