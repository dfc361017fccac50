import type { WindowsPicture } from '../../lib/planner/index.ts';
import { figureText, limitFigure } from './amount-texts.ts';
import { type Bins, gathered, unknownSpans } from './strip-bins.ts';
import type { TimeAxis, ValueLane } from './strip-model.ts';
import { everyStep, largest, plainLane, roundUp } from './strip-values.ts';
import { laneUnit, temperatureTicks } from './units/lane-ticks.ts';
import type { ShownUnits } from './units/shown-units.ts';

interface Drawn {
  readonly bins: Bins;
  readonly units: ShownUnits;
  /** See {@link bindingIds}. */
  readonly binding: ReadonlySet<string>;
}

/** Ids of the limits that are the tightest of a start somewhere in the hours shown, or are not known there. */
export function bindingIds({ hourStarts }: WindowsPicture, axis: TimeAxis): ReadonlySet<string> {
  const shown = hourStarts.filter(({ atEpochMs }) => atEpochMs < axis.toEpochMs);
  return new Set(
    shown.flatMap(({ binding, unknownLimits }) => [...(binding === null ? [] : [binding.limit]), ...unknownLimits]),
  );
}

/** Steepness, sea temperature and visibility: each where it is the tightest limit, is broken or is unknown somewhere. */
export function bindingLanes(picture: WindowsPicture, drawn: Drawn): Partial<Record<ValueLane['id'], ValueLane>> {
  return {
    ...steepnessLane(picture, drawn),
    ...seaWaterLane(picture, drawn),
    ...visibilityLane(picture, drawn),
  };
}

function steepnessLane(
  { limits, hours }: WindowsPicture,
  { bins, binding }: Drawn,
): Partial<Record<'steepness', ValueLane>> {
  const noGo = limits.steepnessNoGoRatio;
  if (noGo === null) return {};
  const values = gathered(hours.steepnessRatio.p50, bins, 'most');
  const isBroken = values.some((value) => value === null || value > noGo);
  if (!isBroken && !binding.has('steepness')) return {};
  const high = gathered(hours.steepnessRatio.p90, bins, 'most');
  const most = Math.max(0.04, roundUp(largest([...high, noGo]), 0.02));
  const lane: ValueLane = {
    ...plainLane(bins),
    id: 'steepness',
    name: 'Steepness',
    shortName: 'Steep',
    shortUnit: '',
    unit: 'height by length',
    most,
    ticks: [0, most].map((value) => ({ value, text: figureText(value, 'ratio') })),
    bands: [{ kind: 'outer', low: gathered(hours.steepnessRatio.p10, bins, 'least'), high }],
    curves: [{ kind: 'median', values }],
    limits: [{ kind: 'no-go', value: noGo, text: `no-go ${figureText(noGo, 'ratio')}` }],
  };
  return { steepness: { ...lane, unknown: unknownSpans(lane) } };
}

function seaWaterLane(
  { limits, hours }: WindowsPicture,
  { bins, units, binding }: Drawn,
): Partial<Record<'sea-water', ValueLane>> {
  const leastC = limits.seaWaterLeastC;
  if (leastC === null) return {};
  const values = gathered(hours.seaWaterC, bins, 'least');
  const isBroken = values.some((value) => value === null || value < leastC);
  if (!isBroken && !binding.has('sea-temperature')) return {};
  const least = Math.floor(Math.min(leastC - 1, ...values.map((value) => value ?? leastC)) / 5) * 5;
  const most = Math.max(least + 5, roundUp(largest([...values, leastC + 1]), 5));
  const lane: ValueLane = {
    ...plainLane(bins),
    id: 'sea-water',
    name: 'Sea water',
    shortName: 'Water',
    shortUnit: laneUnit('°C', units),
    unit: laneUnit('°C', units),
    least,
    most,
    ticks: temperatureTicks({ leastC: least, mostC: most }, units),
    curves: [{ kind: 'median', values }],
    limits: [{ kind: 'no-go', value: leastC, text: `at least ${limitFigure(leastC, '°C', units, 'at-least')}` }],
  };
  return { 'sea-water': { ...lane, unknown: unknownSpans(lane) } };
}

function visibilityLane(
  { visibilityNm, limits }: WindowsPicture,
  { bins, binding }: Drawn,
): Partial<Record<'visibility', ValueLane>> {
  const least = limits.visibilityLeastNm;
  if (least === null) return {};
  const values = visibilityNm === null ? bins.starts.map(() => null) : gathered(visibilityNm, bins, 'least');
  const isBroken = values.some((value) => value === null || value < least);
  if (!isBroken && !binding.has('visibility')) return {};
  const most = Math.max(roundUp(least + 1, 5), Math.min(20, roundUp(largest(values), 5)));
  const lane: ValueLane = {
    ...plainLane(bins),
    id: 'visibility',
    name: 'Visibility',
    shortName: 'Seen',
    shortUnit: 'nm',
    unit: 'nm',
    most,
    ticks: everyStep(most, most),
    curves: [{ kind: 'median', values }],
    limits: [{ kind: 'no-go', value: least, text: `at least ${figureText(least, 'nm')}` }],
  };
  return { visibility: { ...lane, unknown: unknownSpans(lane) } };
}
