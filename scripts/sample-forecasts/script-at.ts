import { wrap180Deg } from '../../lib/units/index.ts';
import { type ScriptRow, scriptRows } from './weather-script.table.ts';

/** The script at one hour; directions may lie outside [0, 360). */
export interface ScriptWeather {
  readonly windFromDegTrue: number;
  readonly windKn: number;
  readonly gustRatio: number;
  readonly seaHeightM: number;
  readonly peakPeriodS: number;
  readonly waveFromDegTrue: number;
  readonly rainMmPerH: number;
  readonly airC: number;
  readonly pressureHpa: number;
}

interface Segment {
  readonly fromH: number;
  readonly lengthH: number;
  readonly from: ScriptRow;
  readonly to: ScriptRow;
  /** Hours of rising wind in all segments before. */
  readonly risingBeforeH: number;
}

/** Half of the time over which rising wind is averaged. */
const WORSENING_HALF_H = 3;

const segments = segmentsOf(turnedTheShortWay(scriptRows));
const firstH = scriptRows[0]?.h ?? 0;
const lastH = scriptRows.at(-1)?.h ?? 0;
/** Rows stand at whole hours: the segment of every hour, by hours since the first row. */
const segmentByHour = Array.from({ length: lastH - firstH }, (_, i) =>
  segments.find(({ fromH, lengthH }) => firstH + i < fromH + lengthH),
);

/** Weather at an hour of the script, linear between rows; beyond its ends the end rows hold. */
export function scriptAt(hourH: number): ScriptWeather {
  const h = insideScriptH(hourH);
  const { fromH, lengthH, from, to } = segmentAt(h);
  const toRatio = (h - fromH) / lengthH;
  const fromRatio = 1 - toRatio;
  return {
    windFromDegTrue: from.windFromDegTrue * fromRatio + to.windFromDegTrue * toRatio,
    windKn: from.windKn * fromRatio + to.windKn * toRatio,
    gustRatio: (from.gustKn / from.windKn) * fromRatio + (to.gustKn / to.windKn) * toRatio,
    seaHeightM: from.seaHeightM * fromRatio + to.seaHeightM * toRatio,
    peakPeriodS: from.peakPeriodS * fromRatio + to.peakPeriodS * toRatio,
    waveFromDegTrue: from.waveFromDegTrue * fromRatio + to.waveFromDegTrue * toRatio,
    rainMmPerH: from.rainMmPerH * fromRatio + to.rainMmPerH * toRatio,
    airC: from.airC * fromRatio + to.airC * toRatio,
    pressureHpa: from.pressureHpa * fromRatio + to.pressureHpa * toRatio,
  };
}

/** Share of the hours around an hour of the script in which the wind rises; bad weather is drawn early there. */
export const worseningShare = (hourH: number): number =>
  (risingHBefore(hourH + WORSENING_HALF_H) - risingHBefore(hourH - WORSENING_HALF_H)) / (2 * WORSENING_HALF_H);

const insideScriptH = (hourH: number): number => Math.min(Math.max(hourH, firstH), lastH);

function segmentAt(h: number): Segment {
  const segment = segmentByHour[Math.min(Math.floor(h - firstH), segmentByHour.length - 1)];
  if (segment === undefined) throw new Error(`the weather script has no hour ${h}`);
  return segment;
}

/** Hours of rising wind from the first row to `hourH`. */
function risingHBefore(hourH: number): number {
  const h = insideScriptH(hourH);
  const { fromH, from, to, risingBeforeH } = segmentAt(h);
  return risingBeforeH + (to.windKn > from.windKn ? h - fromH : 0);
}

function segmentsOf(rows: readonly ScriptRow[]): readonly Segment[] {
  let risingBeforeH = 0;
  return rows.flatMap((to, i) => {
    const from = rows[i - 1];
    if (from === undefined) return [];
    const segment = { fromH: from.h, lengthH: to.h - from.h, from, to, risingBeforeH };
    if (to.windKn > from.windKn) risingBeforeH += segment.lengthH;
    return [segment];
  });
}

/** The rows with directions unwrapped, so that each turns to the next by the shorter way. */
function turnedTheShortWay(rows: readonly ScriptRow[]): readonly ScriptRow[] {
  const turned: ScriptRow[] = [];
  for (const row of rows) {
    const before = turned.at(-1) ?? row;
    turned.push({
      ...row,
      windFromDegTrue: before.windFromDegTrue + wrap180Deg(row.windFromDegTrue - before.windFromDegTrue),
      waveFromDegTrue: before.waveFromDegTrue + wrap180Deg(row.waveFromDegTrue - before.waveFromDegTrue),
    });
  }
  return turned;
}
