import { joined } from './limit-texts.ts';
import type { TimeTexts } from './time-texts.ts';
import type { GateLine, WatchChart, WatchLane } from './watch-chart-model.ts';

/** The drawing in words, for those who do not see it. */
export function describeWatch(
  chart: Pick<WatchChart, 'axis' | 'alertness' | 'lapses' | 'sleeps' | 'lowHours' | 'work'>,
  times: TimeTexts,
): string {
  const { axis, work } = chart;
  const spans = (of: WatchChart['sleeps']): string =>
    of.length === 0 ? 'none' : of.map((span) => times.span(span, 'to')).join('; ');
  const works = work.blocks.map(({ title }) => title);
  return [
    `From ${times.full(axis.fromEpochMs)} to ${times.full(axis.toEpochMs)}, ship’s time.`,
    `Alertness ${rangeText(chart.alertness, 'points')}; lines: ${gatesText(chart.alertness.gates)}.`,
    `Lapses, debt of many days, ${rangeText(chart.lapses, 'lapses')}; lines: ${gatesText(chart.lapses.gates)}.`,
    `Asleep: ${spans(chart.sleeps)}.`,
    `Low hours: ${spans(chart.lowHours)}.`,
    `Work: ${works.length === 0 ? 'none' : works.join('; ')}.`,
    'The same hour by hour stands in the table below.',
  ].join(' ');
}

function rangeText({ values, unknown }: WatchLane, unit: string): string {
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return 'unknown';
  const gap = unknown.length === 0 ? '' : ', unknown where no sleep is planned';
  return `between ${Math.min(...known).toFixed(1)} and ${Math.max(...known).toFixed(1)} ${unit}${gap}`;
}

const gatesText = (gates: readonly GateLine[]): string => joined(gates.map(({ lines }) => lines.join(' ')));
