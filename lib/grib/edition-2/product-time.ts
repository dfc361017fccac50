/** Valid time of a product of edition 2: forecast time (octets 18-22 of template 4.0) and the interval block of 4.8 and its kin. */
import type { Problem } from '../../result/index.ts';
import { statisticOfCode } from '../code-tables/statistic.ts';
import { timeUnitMs, unusableTimeUnitName } from '../code-tables/time-unit.ts';
import { epochMsOfDate } from '../dates.ts';
import type { TimeRange, Validity } from '../field.ts';
import { readDate } from './identification.ts';
import { damaged, type MessagePlace, tooShort, unsupported } from '../problems.ts';
import { octet1, octet4, type Section, signed4 } from '../section.ts';

type Instant = Extract<Validity, { kind: 'instant' }>;
type Interval = Extract<Validity, { kind: 'interval' }>;

/** Reference time plus forecast time: the valid instant, or the start of the overall interval. `octet` is that of the unit. */
export function startOfValidity(
  place: MessagePlace,
  section: Section,
  from: { octet: number; referenceEpochMs: number },
): Instant | Problem {
  const unitMs = readTimeUnit(place, section, from.octet);
  if (typeof unitMs !== 'number') return unitMs;
  const validEpochMs = from.referenceEpochMs + signed4(section, from.octet + 1) * unitMs;
  return isOnCalendar(validEpochMs) ? { kind: 'instant', validEpochMs } : offCalendar(place, section, from.octet + 1);
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

/** Octets before the first time range, and of each. */
const RANGES_AFTER_OCTETS = 12;
const RANGE_OCTETS = 12;
/** Code table 4.11: the start of forecast stays, the forecast time moves; 255 is missing. */
const PLAIN_INCREMENTS: readonly number[] = [2, 255];

/**
 * The overall interval, and the statistic over it: of several time ranges the first is the outermost, which the interval
 * bounds (note to the template: "next innermost step of processing" follows).
 */
export function readInterval(
  place: MessagePlace,
  section: Section,
  from: { start: Instant; octet: number },
): Interval | Problem {
  const rangeCount = octet1(section, from.octet + 7);
  if (rangeCount === 0) return noRange(place, section, from.octet + 7);
  const short = tooShort(place, section, from.octet - 1 + RANGES_AFTER_OCTETS + rangeCount * RANGE_OCTETS);
  if (short !== null) return short;
  const startEpochMs = from.start.validEpochMs;
  const endEpochMs = readEnd(place, section, { startEpochMs, octet: from.octet });
  if (typeof endEpochMs !== 'number') return endEpochMs;
  const statisticCode = octet1(section, from.octet + RANGES_AFTER_OCTETS);
  const interval = {
    kind: 'interval',
    startEpochMs,
    endEpochMs,
    statistic: statisticOfCode(statisticCode),
    statisticCode,
  } as const;
  const ranges = readRanges(section, from.octet + RANGES_AFTER_OCTETS, rangeCount);
  const isPlain = ranges.length === 1 && PLAIN_INCREMENTS.includes(ranges[0]?.incrementCode ?? 255);
  return isPlain ? interval : { ...interval, ranges };
}

function readRanges(section: Section, octet: number, rangeCount: number): TimeRange[] {
  return Array.from({ length: rangeCount }, (_, i) => {
    const statisticCode = octet1(section, octet + i * RANGE_OCTETS);
    const incrementCode = octet1(section, octet + i * RANGE_OCTETS + 1);
    return { statistic: statisticOfCode(statisticCode), statisticCode, incrementCode };
  });
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
  const lengthOctet = from.octet + RANGES_AFTER_OCTETS + 3;
  if (octet4(section, lengthOctet) === 0xffff_ffff) return endless(place, section, from.octet);
  const unitMs = readTimeUnit(place, section, lengthOctet - 1);
  if (typeof unitMs !== 'number') return unitMs;
  const endEpochMs = from.startEpochMs + octet4(section, lengthOctet) * unitMs;
  return isOnCalendar(endEpochMs) ? endEpochMs : offCalendar(place, section, lengthOctet);
}

const noRange = (place: MessagePlace, section: Section, octet: number): Problem =>
  unsupported(place, {
    code: 'grib.time-range-unsupported',
    section,
    octet,
    table: 'Number of time range specifications',
    value: 0,
    name: 'no statistic',
    expected: '1 or more',
    remedy: 'Ask for the field again, or for another source of it.',
  });

const endless = (place: MessagePlace, section: Section, octet: number): Problem =>
  damaged(place, {
    code: 'grib.interval-reversed',
    section,
    octet,
    what: 'The interval ends before it starts, and its length is missing.',
    expected: 'an end at or after reference time + forecast time',
  });
