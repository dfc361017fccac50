/** Valid time of a product of edition 2: octets 18-22 of Section 4 and the interval block of templates 4.8, 4.11, 4.12. */
import type { Problem } from '../../result/index.ts';
import { statisticOfCode } from '../code-tables/statistic.ts';
import { timeUnitMs, unusableTimeUnitName } from '../code-tables/time-unit.ts';
import { epochMsOfDate } from '../dates.ts';
import type { Validity } from '../field.ts';
import { readDate } from './identification.ts';
import { damaged, type MessagePlace, unsupported } from '../problems.ts';
import { octet1, octet4, type Section, signed4 } from '../section.ts';

type Instant = Extract<Validity, { kind: 'instant' }>;
type Interval = Extract<Validity, { kind: 'interval' }>;

/** Reference time plus forecast time: the valid instant, or the start of the overall interval. */
export function startOfValidity(place: MessagePlace, section: Section, referenceEpochMs: number): Instant | Problem {
  const unitMs = readTimeUnit(place, section, 18);
  if (typeof unitMs !== 'number') return unitMs;
  const validEpochMs = referenceEpochMs + signed4(section, 19) * unitMs;
  return isOnCalendar(validEpochMs) ? { kind: 'instant', validEpochMs } : offCalendar(place, section, 19);
}

/** Instants a `Date` can hold. */
const isOnCalendar = (epochMs: number): boolean => Math.abs(epochMs) <= 8.64e15;

const offCalendar = (place: MessagePlace, section: Section, octet: number): Problem =>
  damaged(place, {
    code: 'grib.date-impossible',
    section,
    octet,
    what: `${octet4(section, octet)} units of time lead beyond the calendar.`,
    expected: 'a forecast of days, not of ages',
  });

function readTimeUnit(place: MessagePlace, section: Section, octet: number): number | Problem {
  const code = octet1(section, octet);
  return (
    timeUnitMs(2, code) ??
    unsupported(place, {
      code: 'grib.time-unit-unsupported',
      section,
      octet,
      table: 'GRIB2 code table 4.4 (unit of time)',
      value: code,
      name: unusableTimeUnitName(code),
      expected: 'a unit of fixed length: 0, 1, 2, 10, 11, 12 or 13',
      remedy: 'Ask for a forecast with steps in minutes, hours or days.',
    })
  );
}

/** The overall interval, and the statistic over it. */
export function readInterval(
  place: MessagePlace,
  section: Section,
  from: { start: Instant; octet: number },
): Interval | Problem {
  const rangeCount = octet1(section, from.octet + 7);
  if (rangeCount !== 1) return nestedRanges(place, { section, octet: from.octet + 7 }, rangeCount);
  const startEpochMs = from.start.validEpochMs;
  const endEpochMs = readEnd(place, section, { startEpochMs, octet: from.octet });
  if (typeof endEpochMs !== 'number') return endEpochMs;
  const statisticCode = octet1(section, from.octet + 12);
  return { kind: 'interval', startEpochMs, endEpochMs, statistic: statisticOfCode(statisticCode), statisticCode };
}

/**
 * End of the interval: the date written in the block; where that is no date or lies before the start (encoders that
 * leave it unset), start + length of the time range.
 */
function readEnd(
  place: MessagePlace,
  section: Section,
  from: { startEpochMs: number; octet: number },
): number | Problem {
  const writtenEpochMs = epochMsOfDate(readDate(section, from.octet));
  if (writtenEpochMs !== null && writtenEpochMs >= from.startEpochMs) return writtenEpochMs;
  const lengthOctet = from.octet + 15;
  if (octet4(section, lengthOctet) === 0xffff_ffff) return endless(place, section, from.octet);
  const unitMs = readTimeUnit(place, section, from.octet + 14);
  if (typeof unitMs !== 'number') return unitMs;
  const endEpochMs = from.startEpochMs + octet4(section, lengthOctet) * unitMs;
  return isOnCalendar(endEpochMs) ? endEpochMs : offCalendar(place, section, lengthOctet);
}

const nestedRanges = (place: MessagePlace, at: { section: Section; octet: number }, rangeCount: number): Problem =>
  unsupported(place, {
    code: 'grib.time-range-unsupported',
    section: at.section,
    octet: at.octet,
    table: 'Number of time range specifications',
    value: rangeCount,
    name: 'a statistic of statistics',
    expected: '1',
    remedy: 'Ask for a field processed over one interval, not over several nested ones.',
  });

const endless = (place: MessagePlace, section: Section, octet: number): Problem =>
  damaged(place, {
    code: 'grib.interval-reversed',
    section,
    octet,
    what: 'The interval ends before it starts, and its length is missing.',
    expected: 'an end at or after reference time + forecast time',
  });
