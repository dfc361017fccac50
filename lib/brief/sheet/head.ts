import { formatPosition } from '../../geo/index.ts';
import { limitWords, startCheckText } from '../../planner/index.ts';
import { ofHundred } from '../../reasons/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../time/index.ts';
import { clockName, handlingText, planTitle, spreadText } from '../export/job-words.ts';
import type { SheetFact } from './sheet.ts';
import { sheetTimes } from './sheet-times.ts';
import type { SheetWork } from './sheet-work.ts';

/** Boat, both clocks with the weekday, place, forecast with its age, plan. */
export function headFacts({ passage, plan, names, nowEpochMs, begin }: SheetWork): SheetFact[] {
  const times = sheetTimes(names.shipTimeOffsetMin);
  const baseEpochMs = Date.parse(plan.forecast.baseTimeUtc);
  const ageH = Math.round((nowEpochMs - baseEpochMs) / MS_PER_H);
  const here = begin === null ? passage.start.position : begin.at;
  const where = begin === null ? 'at the start of the passage' : 'where the work begins';
  return [
    { term: 'Boat', text: `${passage.boat.name}. ${passage.name}` },
    { term: 'Printed', text: `${times.whole(nowEpochMs)}; ship’s time is ${clockName(names)}` },
    { term: 'Position', text: `${formatPosition(here)} ${where}` },
    { term: 'Forecast', text: `issued ${times.both(baseEpochMs)}, ${ageH} h old` },
    { term: planTitle(plan), text: `made ${times.both(Date.parse(plan.madeAtUtc))}` },
  ];
}

/** What is not simply planned is said first. */
export function standingText({ planned }: SheetWork): string | null {
  const { status, unknownLimits, nearestMiss } = planned;
  if (status === 'done') return 'Done: the log says so.';
  if (status === 'unplanned')
    return `Not in the plan: do not start by this sheet.${nearestMiss === null ? '' : ` ${nearestMiss.text}`}`;
  if (status === 'conditional')
    return `Conditional: ${unknownLimits.map(limitWords).join(', ')} not in the forecast. Look, and judge it, before you start.`;
  return null;
}

/** What the start check will probably say at the planned start; null: go, or there is none. */
export function startWarning({ planned, names }: SheetWork): string | null {
  const { startCheck, startBetween, fallback } = planned;
  if (startCheck === null) return null;
  const times = sheetTimes(names.shipTimeOffsetMin);
  return startCheckText(startCheck, {
    time: (utc) => times.ship(Date.parse(utc)),
    lastStartUtc: startBetween?.lastUtc ?? null,
    secondUtc: fallback?.startUtc ?? null,
  });
}

/** When it opens, is best, closes; how sure; the latest start and finish. */
export function windowFacts(work: SheetWork): SheetFact[] {
  const { begin, entries, planned, shown, names } = work;
  if (begin === null) return [];
  const times = sheetTimes(names.shipTimeOffsetMin);
  const between = planned.startBetween;
  const lastStartEpochMs = between === null ? null : Date.parse(between.lastUtc);
  const firstEnd = entries[0]?.endEpochMs ?? begin.endEpochMs;
  const heldMs =
    shown?.referenceMin === null || shown === null ? firstEnd - begin.startEpochMs : shown.referenceMin * MS_PER_MIN;
  const part = entries.length > 1 ? ', part 1' : '';
  return [
    { term: 'Start', text: times.both(begin.startEpochMs) },
    ...(between === null ? [] : [{ term: 'Opens', text: times.both(Date.parse(between.firstUtc)) }]),
    ...(lastStartEpochMs === null
      ? []
      : [
          { term: 'Latest start', text: times.both(lastStartEpochMs) },
          { term: 'Finish by', text: `${times.both(lastStartEpochMs + heldMs)}${part}` },
        ]),
    ...(planned.probability === null
      ? []
      : [{ term: 'Inside limits', text: `${ofHundred(planned.probability)}${spreadText(shown?.probabilitySd)}` }]),
    { term: 'If not', text: ifNot(work) },
  ];
}

function ifNot({ planned: { fallback }, names }: SheetWork): string {
  if (fallback === null) return 'no second window in this forecast; plan again with the next';
  const times = sheetTimes(names.shipTimeOffsetMin);
  const { startUtc, lastStartUtc, handling, probability } = fallback;
  return `start ${times.ship(Date.parse(startUtc))} to ${times.ship(Date.parse(lastStartUtc))}, ${handlingText(handling, names)}, ${ofHundred(probability)}`;
}
