/** Section 1 (PDS) of edition 1: level and times. */
import type { Problem } from '../../result/index.ts';
import { timeRangeName } from '../code-tables/product-names.ts';
import { timeUnitMs, unusableTimeUnitName } from '../code-tables/time-unit.ts';
import { epochMsOfDate } from '../dates.ts';
import type { Level, Statistic, Validity } from '../field.ts';
import { damaged, impossibleDate, type MessagePlace, unsupported } from '../problems.ts';
import { octet1, octet2, type Section, signed2 } from '../section.ts';

/** Reference time: year of the century (octet 13, 100 in the century's last year), month, day, hour, minute; century (octet 25). */
export function referenceTimeEdition1(place: MessagePlace, section: Section): number | Problem {
  const date = {
    year: (octet1(section, 25) - 1) * 100 + octet1(section, 13),
    month: octet1(section, 14),
    day: octet1(section, 15),
    hour: octet1(section, 16),
    minute: octet1(section, 17),
    second: 0,
  };
  return epochMsOfDate(date) ?? impossibleDate(place, { section, octet: 13 }, date);
}

/** Level types that bound a layer: octet 11 is its top, octet 12 its bottom (table 3). */
const LAYER_TYPES = [101, 104, 106, 108, 110, 112, 114, 116, 120, 121, 128, 141];

/** Level types whose value may lie below zero: altitude, height, potential vorticity. */
const SIGNED_TYPES = [103, 105, 117];

/** Level or layer, in the unit of table 3 (hPa, m, cm, …). A first bit of 1 makes a value negative (regulation 92.1.5). */
export function levelEdition1(section: Section): Level {
  const typeCode = octet1(section, 10);
  if (LAYER_TYPES.includes(typeCode))
    return { first: { typeCode, value: octet1(section, 11) }, second: { typeCode, value: octet1(section, 12) } };
  const value = SIGNED_TYPES.includes(typeCode) ? signed2(section, 11) : octet2(section, 11);
  return { first: { typeCode, value }, second: null };
}

/** Time range indicators (table 5) over P1 to P2 and what they do with the interval. */
const RANGE_STATISTICS: ReadonlyMap<number, Statistic> = new Map([
  [2, 'unspecified'],
  [3, 'average'],
  [4, 'accumulation'],
  [5, 'difference'],
]);

/** Valid time of a field: octets 18-21. */
export function validityEdition1(place: MessagePlace, section: Section, referenceEpochMs: number): Validity | Problem {
  const unitMs = timeUnitMs(1, octet1(section, 18));
  const indicator = octet1(section, 21);
  if (unitMs === null) return unusableUnit(place, section);
  if (indicator === 0) return { kind: 'instant', validEpochMs: referenceEpochMs + octet1(section, 19) * unitMs };
  if (indicator === 1) return { kind: 'instant', validEpochMs: referenceEpochMs };
  if (indicator === 10) return { kind: 'instant', validEpochMs: referenceEpochMs + octet2(section, 19) * unitMs };
  const statistic = RANGE_STATISTICS.get(indicator);
  if (statistic === undefined) return unusableRange(place, section);
  const startEpochMs = referenceEpochMs + octet1(section, 19) * unitMs;
  const endEpochMs = referenceEpochMs + octet1(section, 20) * unitMs;
  if (endEpochMs < startEpochMs) return reversed(place, section);
  return { kind: 'interval', startEpochMs, endEpochMs, statistic, statisticCode: null };
}

const unusableUnit = (place: MessagePlace, section: Section): Problem =>
  unsupported(place, {
    code: 'grib.time-unit-unsupported',
    section,
    octet: 18,
    table: 'GRIB1 code table 4 (unit of time)',
    value: octet1(section, 18),
    name: unusableTimeUnitName(octet1(section, 18)),
    expected: 'a unit of fixed length: 0, 1, 2, 10 to 14 or 254',
    remedy: 'Ask for a forecast with steps in minutes, hours or days.',
  });

const unusableRange = (place: MessagePlace, section: Section): Problem =>
  unsupported(place, {
    code: 'grib.time-range-unsupported',
    section,
    octet: 21,
    table: 'GRIB1 code table 5 (time range indicator)',
    value: octet1(section, 21),
    name: timeRangeName(octet1(section, 21)),
    expected: 'one of 0, 1, 2, 3, 4, 5, 10',
    remedy: 'Ask for the plain forecast of the quantity.',
  });

const reversed = (place: MessagePlace, section: Section): Problem =>
  damaged(place, {
    code: 'grib.interval-reversed',
    section,
    octet: 19,
    what: 'The interval ends before it starts.',
    expected: 'P2 at or after P1',
  });
