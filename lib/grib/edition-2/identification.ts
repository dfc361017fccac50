/** Section 1 of edition 2: who made the message and when its forecast starts. */
import type { Problem } from '../../result/index.ts';
import { type CalendarDate, epochMsOfDate } from '../dates.ts';
import { impossibleDate, type MessagePlace, tooShort } from '../problems.ts';
import { octet1, octet2, type Section } from '../section.ts';

/** Originator and reference time. */
export interface Identification {
  readonly centre: number;
  readonly subcentre: number;
  readonly referenceEpochMs: number;
  /** Code table 1.4. */
  readonly dataTypeCode: number;
}

/** Reads Section 1. */
export function readIdentification(place: MessagePlace, section: Section): Identification | Problem {
  const short = tooShort(place, section, 21);
  if (short !== null) return short;
  const date = readDate(section, 13);
  const referenceEpochMs = epochMsOfDate(date);
  if (referenceEpochMs === null) return impossibleDate(place, { section, octet: 13 }, date);
  return {
    centre: octet2(section, 6),
    subcentre: octet2(section, 8),
    referenceEpochMs,
    dataTypeCode: octet1(section, 21),
  };
}

/** Seven octets: year (two), month, day, hour, minute, second. */
export function readDate(section: Section, octet: number): CalendarDate {
  return {
    year: octet2(section, octet),
    month: octet1(section, octet + 2),
    day: octet1(section, octet + 3),
    hour: octet1(section, octet + 4),
    minute: octet1(section, octet + 5),
    second: octet1(section, octet + 6),
  };
}
