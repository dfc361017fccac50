import { kssFromAlertness } from '../../lib/person/index.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness, plannedLapses } from './planned-alertness.ts';
import { timeAxis } from './strip-axis.ts';
import { binsOf, gathered, unknownSpans, type Bins } from './strip-bins.ts';
import { blockLanes } from './strip-blocks.ts';
import type { BlockLane, TimeAxis } from './strip-model.ts';
import { everyStep, largest } from './strip-values.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { leastText, mostText } from './watch-amounts.ts';
import type { GateLine, WatchChart, WatchKeyEntry, WatchLane, WatchSpan } from './watch-chart-model.ts';
import { describeWatch } from './watch-description.ts';
import { hoursTable } from './watch-hours-table.ts';

/** Alertness and lapses through the plan, over its sleep, its work, the low hours and the lines that gate work. */
export function watchChart(view: PassageView, times: TimeTexts): WatchChart {
  const { plan, picture } = view;
  const axis = timeAxis(plan, picture, times);
  const bins = binsOf(picture.slotEpochMs, axis);
  const lanes = { alertness: alertnessLane(view, bins), lapses: lapsesLane(view, bins) };
  const chart = {
    ...lanes,
    axis,
    sleeps: spansOf(plan.watch.sleeps, axis).map((span) => ({ ...span, title: `Asleep ${times.span(span, 'to')}` })),
    lowHours: spansOf(plan.watch.lowHours, axis).map((span) => ({
      ...span,
      title: `Low hours ${times.span(span, 'to')}`,
    })),
    work: workLane(view, axis, times),
  };
  return {
    ...chart,
    title: 'How awake you are',
    subtitle:
      'Ship’s time. Alertness in points: 14 is high, 7 is the published risk line, 3 is extreme sleepiness. Lapses: reactions missed in a ten-minute test. Both are of a middle person: if you feel sleepier than drawn, believe yourself.',
    description: describeWatch(chart, times),
    key: keyOf(chart),
    table: hoursTable(plan.watch, times),
  };
}

const spansOf = (
  spans: readonly { readonly startUtc: string; readonly endUtc: string }[],
  axis: TimeAxis,
): Omit<WatchSpan, 'title'>[] =>
  spans
    .map(({ startUtc, endUtc }) => ({
      fromEpochMs: Math.max(axis.fromEpochMs, epochOf(startUtc)),
      toEpochMs: Math.min(axis.toEpochMs, epochOf(endUtc)),
    }))
    .filter(({ fromEpochMs, toEpochMs }) => fromEpochMs < toEpochMs);

/** All work in one lane, on deck and below; waits need nobody awake. */
function workLane({ plan, picture }: PassageView, axis: TimeAxis, times: TimeTexts): BlockLane {
  const lanes = blockLanes({ plan, picture, chosenJobId: null, axis, times });
  const blocks = lanes
    .filter(({ id }) => id !== 'sleep')
    .flatMap((lane) => lane.blocks)
    .filter(({ kind }) => kind !== 'wait')
    .toSorted((a, b) => a.fromEpochMs - b.fromEpochMs);
  return { id: 'deck', name: 'Work', blocks, windows: [] };
}

const withUnknown = (lane: Omit<WatchLane, 'unknown'>): WatchLane => ({
  ...lane,
  unknown: unknownSpans({ epochMs: lane.epochMs, curves: [{ kind: 'median', values: lane.values }] }),
});

const HIGH_ALERTNESS = 14;
const EXTREME_ALERTNESS = 3;

function alertnessLane(view: PassageView, bins: Bins): WatchLane {
  const { gates } = view.plan.watch;
  const values = gathered(plannedAlertness(view), bins, 'least');
  const known = values.filter((value) => value !== null);
  const gateLines: GateLine[] = [
    {
      kind: 'hard',
      value: gates.hardLeastAlertnessPoints,
      lines: ['heavy, aloft,', `overside ${leastText(gates.hardLeastAlertnessPoints)}`],
    },
    {
      kind: 'deck',
      value: gates.deckLeastAlertnessPoints,
      lines: ['other deck', `work ${leastText(gates.deckLeastAlertnessPoints)}`],
    },
    {
      kind: 'any',
      value: gates.anyLeastAlertnessPoints,
      lines: ['anything:', `sleepiness ${mostText(kssFromAlertness(gates.anyLeastAlertnessPoints))}`],
    },
  ];
  return withUnknown({
    id: 'alertness',
    name: 'Alertness',
    unit: 'points',
    underName: ['more is better'],
    least: Math.floor(Math.min(EXTREME_ALERTNESS, ...known, ...gateLines.map(({ value }) => value))),
    most: Math.ceil(Math.max(HIGH_ALERTNESS, largest(known))),
    ticks: [3, 7, 10, 14].map((value) => ({ value, text: String(value) })),
    epochMs: bins.epochMs,
    values,
    gates: gateLines,
  });
}

const LEAST_TOP_LAPSES = 14;

function lapsesLane(view: PassageView, bins: Bins): WatchLane {
  const { gates } = view.plan.watch;
  const values = gathered(plannedLapses(view), bins, 'most');
  const known = values.filter((value) => value !== null);
  const gateLines: GateLine[] = [
    { kind: 'deck', value: gates.deckMostLapses, lines: ['other deck', `work ${mostText(gates.deckMostLapses)}`] },
    {
      kind: 'hard',
      value: gates.hardMostLapses,
      lines: ['heavy, aloft,', `overside ${mostText(gates.hardMostLapses)}`],
    },
  ];
  const most = Math.ceil(Math.max(LEAST_TOP_LAPSES, largest([...known, ...gateLines.map(({ value }) => value + 1)])));
  return withUnknown({
    id: 'lapses',
    name: 'Lapses:',
    unit: 'debt of many',
    underName: ['days; less is', 'better'],
    least: Math.floor(Math.min(0, ...known)),
    most,
    ticks: everyStep(most, 5),
    epochMs: bins.epochMs,
    values,
    gates: gateLines,
  });
}

function keyOf(chart: Pick<WatchChart, 'sleeps' | 'lowHours' | 'work' | 'alertness' | 'lapses'>): WatchKeyEntry[] {
  const has = (kind: 'planned' | 'conditional'): boolean => chart.work.blocks.some((block) => block.kind === kind);
  const isUnknown = chart.alertness.unknown.length > 0 || chart.lapses.unknown.length > 0;
  const entries: readonly (readonly [boolean, WatchKeyEntry])[] = [
    [true, { kind: 'awake-line', text: 'alertness, lapses' }],
    [chart.sleeps.length > 0, { kind: 'sleep', text: 'asleep' }],
    [chart.lowHours.length > 0, { kind: 'low-hours', text: 'low hours, 02–06 on your body clock' }],
    [has('planned'), { kind: 'planned', text: 'planned work' }],
    [has('conditional'), { kind: 'conditional', text: 'conditional work' }],
    [isUnknown, { kind: 'unknown', text: 'unknown: no sleep is planned so far ahead' }],
  ];
  return entries.flatMap(([isShown, entry]) => (isShown ? [entry] : []));
}
