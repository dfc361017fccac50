import type { JobPicture, PlanEntry, PlanPicture } from '../../lib/planner/index.ts';
import { planReading } from './plan-hours.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness } from './planned-alertness.ts';
import { binsOf, type Bins } from './strip-bins.ts';
import { strip } from './strip.ts';
import type { KeyEntry, StripModel, ValueLane } from './strip-model.ts';
import { stripTable } from './strip-table.ts';
import { largest, plainLane, roundUp } from './strip-values.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { laneUnit, windTicks } from './units/lane-ticks.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** Wind where work is done, sea, light and alertness over the blocks of the whole plan. */
export function planStrip(view: PassageView, times: TimeTexts, hourEpochMs: number | null = null): StripModel {
  const { plan, picture } = view;
  const shown = { ...picture, alertnessPoints: plannedAlertness(view) };
  const base = strip({ plan, picture, job: null, times });
  const wind = workWindLane(view, binsOf(picture.slotEpochMs, base.axis), times.units);
  return {
    ...base,
    title: 'The plan over the hours',
    subtitle: 'Ship’s time. Deck wind is drawn while work is done, under its handling, against the no-go of that work.',
    values: [wind, ...base.values.map((lane) => ({ ...lane, note: null }))],
    key: keyOf(base),
    table: stripTable({ plan, picture: shown, job: 'at-work' }, base.axis, times),
    reading: planReading({ plan, picture: shown, times, shownEpochMs: hourEpochMs }, base.axis),
  };
}

/** Deck wind of whatever is worked, and nothing between; true wind at 10 m runs through. */
function workWindLane({ plan, picture }: PassageView, bins: Bins, units: ShownUnits): ValueLane {
  const points = workPoints(plan.entries, picture, bins);
  const of = (value: (job: JobPicture, slot: number) => number | undefined): (number | null)[] =>
    points.map(({ job, slot }) => {
      const found = job === null ? undefined : value(job, slot);
      return found === undefined || Number.isNaN(found) ? null : found;
    });
  const high = of((job, slot) => job.deckWindKn.p90[slot]);
  const noGo = of((job) => job.limits.deckWindKn?.noGo);
  const trueWind = points.map(({ atEpochMs }) => trueWindAt(picture.trueWind, atEpochMs));
  const most = Math.min(60, Math.max(10, roundUp(largest([...high, ...trueWind]) + 1, 5)));
  return {
    ...plainLane(bins),
    epochMs: points.map(({ atEpochMs }) => atEpochMs),
    id: 'wind',
    name: 'Deck wind',
    shortName: 'Deck wind',
    shortUnit: laneUnit('kn', units),
    unit: laneUnit('kn', units),
    underName: ['at work'],
    limits: [],
    most,
    ticks: windTicks(most, units),
    bands: [{ kind: 'outer', low: of((job, slot) => job.deckWindKn.p10[slot]), high }],
    curves: [
      { kind: 'true-wind', values: trueWind },
      { kind: 'median', values: of((job, slot) => job.deckWindKn.p50[slot]) },
      { kind: 'no-go', values: noGo.map((value) => (value !== null && value > most ? null : value)) },
    ],
  };
}

interface WorkPoint {
  readonly atEpochMs: number;
  /** null: no work there. */
  readonly job: JobPicture | null;
  readonly slot: number;
}

/**
 * The bins, and start and end of every piece of work with a point of no work on either side of it: the line of one job
 * never runs on into that of the next.
 */
function workPoints(entries: readonly PlanEntry[], picture: PlanPicture, bins: Bins): WorkPoint[] {
  const pieces = entries
    .filter(({ kind }) => kind === 'work')
    .map(({ startUtc, endUtc, jobId }) => ({
      fromEpochMs: epochOf(startUtc),
      toEpochMs: epochOf(endUtc),
      job: picture.jobs.find((job) => job.jobId === jobId) ?? null,
    }))
    .toSorted((a, b) => a.fromEpochMs - b.fromEpochMs);
  const pointAt = (atEpochMs: number, job: JobPicture | null, inEpochMs = atEpochMs): WorkPoint => ({
    atEpochMs,
    job,
    slot: picture.slotEpochMs.findLastIndex((epochMs) => epochMs <= inEpochMs),
  });
  const worked = pieces.map(({ fromEpochMs, toEpochMs, job }) => {
    const inside = bins.epochMs.filter((epochMs) => epochMs > fromEpochMs && epochMs < toEpochMs);
    return [
      pointAt(fromEpochMs, null),
      ...[fromEpochMs, ...inside].map((epochMs) => pointAt(epochMs, job)),
      // Work ends before its end: what blows in the slot after it is no longer met.
      pointAt(toEpochMs, job, toEpochMs - 1),
      pointAt(toEpochMs, null),
    ];
  });
  const isFree = (epochMs: number): boolean =>
    pieces.every(({ fromEpochMs, toEpochMs }) => epochMs < fromEpochMs || epochMs > toEpochMs);
  const free = bins.epochMs.filter(isFree).map((epochMs) => [pointAt(epochMs, null)]);
  return [...free, ...worked].toSorted((a, b) => (a[0]?.atEpochMs ?? 0) - (b[0]?.atEpochMs ?? 0)).flat();
}

/** Between two three-hourly winds in a straight line; null: none is known there. */
function trueWindAt(winds: PlanPicture['trueWind'], epochMs: number): number | null {
  const next = winds.find(({ atEpochMs }) => atEpochMs >= epochMs);
  const before = winds.findLast(({ atEpochMs }) => atEpochMs <= epochMs);
  if (next === undefined || before === undefined) return null;
  if (next.atEpochMs === before.atEpochMs) return next.windKn;
  const share = (epochMs - before.atEpochMs) / (next.atEpochMs - before.atEpochMs);
  return before.windKn + (next.windKn - before.windKn) * share;
}

function keyOf({ key, values }: StripModel): KeyEntry[] {
  const kept = key.filter(({ kind }) => ['planned', 'conditional', 'sleep', 'unknown'].includes(kind));
  return [
    { kind: 'median', text: 'median' },
    { kind: 'outer', text: '8 in 10 of the scenarios' },
    { kind: 'true-wind', text: 'true wind, median' },
    { kind: 'no-go', text: 'no-go of the work' },
    ...kept.filter(({ kind }) => kind !== 'unknown' || values.some((lane) => lane.unknown.length > 0)),
  ];
}
