import { checksBesideFigures } from '../../planner/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { courseText, lengthText, sheetTimes } from './sheet-times.ts';
import { wayMade } from './lying.ts';
import type { SheetWork } from './sheet-work.ts';

/** Common practice, no source: what must be so before one person begins alone. */
const CLEAR_NM = 12;
const LEAST_HELD_MIN = 10;
const MATCH = 'barometer within 4 hPa, wind within 30° and 5 kn';

/** All to be ticked; wind, sea and barometer stand in the table of numbers. */
export function goList(work: SheetWork): string[] {
  const { job, handling, planned } = work;
  const heldMin = Math.max(LEAST_HELD_MIN, handling?.settleMin ?? 0);
  return [
    ...windowLines(work),
    'All numbers at or below “start”, watched 20 min.',
    `The weather is as forecast: ${MATCH}${expectedWind(work)}.`,
    'Slept 90 min or more in the last 6 h, or rested.',
    `Looked all round: clear for ${CLEAR_NM} nm, alarms set.`,
    ...seaRoomLines(work),
    'Fed, toilet, warm: all three.',
    'Main hatch closed.',
    job.group === 'engine' ? 'Engine not wanted until done.' : 'Engine can be started.',
    'Tools and parts laid out.',
    `Lying as below for ${heldMin} min.`,
    ...checksBesideFigures(planned.goCheck),
  ];
}

function windowLines({ planned: { startBetween }, names }: SheetWork): string[] {
  if (startBetween === null) return [];
  const times = sheetTimes(names.shipTimeOffsetMin);
  const [first, last] = [startBetween.firstUtc, startBetween.lastUtc].map((utc) => times.ship(Date.parse(utc)));
  return [`It is between ${first} and ${last}.`];
}

function expectedWind({ begin }: SheetWork): string {
  if (begin === null || begin.wind === null) return '';
  const { windKn, windFromDegTrue } = begin.wind;
  return ` of ${windKn.toFixed(0)} kn from ${courseText(windFromDegTrue)} (10 m)`;
}

/** Open water for as long as the weather is wanted: the run under the handling in the strong wind of P90, rounded up. */
function seaRoomLines({ begin }: SheetWork): string[] {
  const strong = begin?.motionP90 ?? null;
  const motion = strong ?? begin?.motion ?? null;
  if (begin === null || motion === null) return [];
  const { speedKn, towardDegTrue } = wayMade(motion);
  const lengthH = (begin.downByEpochMs - begin.startEpochMs) / MS_PER_H;
  const leastNm = Math.ceil(speedKn * lengthH);
  const wind = strong === null ? 'in the median wind' : 'in a wind that 1 of 10 goes beyond';
  return [
    `Sea room ${leastNm} nm toward ${courseText(towardDegTrue)}: the run of ${lengthText(lengthH * 60)} ${wind}, no current.`,
  ];
}
