/** Problems of this room, worded in one place. They name file, message, section, octet, and where it helps the WMO table and value. */
import type { Problem } from '../result/index.ts';
import { WIDEST_BITS } from './bits.ts';
import { type CalendarDate, formatDate } from './dates.ts';
import type { Section } from './section.ts';

/**
 * Largest grid accepted; a 200-octet message can declare four thousand million points. The finest global grids in use have
 * 13 million (2560 parallels of 5136), and one such field takes a process to some 400 MiB.
 */
const MOST_POINTS = 16_000_000;

/** Message being read. */
export interface MessagePlace {
  readonly fileName: string;
  /** From 1. */
  readonly messageNumber: number;
  /** Octets before the message in its file. */
  readonly messageOffsetOctet: number;
}

/** `gfs.grib2, message 3 (at octet 4711 of the file)`; octets of the file count from 1. */
export function whereMessage(place: MessagePlace): string {
  return `${place.fileName}, message ${place.messageNumber} (at octet ${place.messageOffsetOctet + 1} of the file)`;
}

/** Message, section and octet within the section. */
function whereOctet(place: MessagePlace, section: Section, octet: number): string {
  return `${whereMessage(place)}, section ${section.sectionNumber}, octet ${octet}`;
}

/** `grib.section-too-short`: the section ends before the octets its template needs; null when it is long enough. */
export function tooShort(place: MessagePlace, section: Section, neededOctets: number): Problem | null {
  if (section.lengthOctets >= neededOctets) return null;
  return {
    code: 'grib.section-too-short',
    where: whereOctet(place, section, section.lengthOctets),
    what: `The section has ${section.lengthOctets} octets.`,
    expected: `at least ${neededOctets}`,
    remedy: 'The file is damaged: download it again.',
  };
}

/** Octets of a code in a WMO table that this room does not read. */
export interface UnsupportedCode {
  readonly code: string;
  readonly section: Section;
  readonly octet: number;
  /** `GRIB2 code table 5.0 (data representation template)`. */
  readonly table: string;
  readonly value: number;
  readonly name: string;
  readonly expected: string;
  readonly remedy: string;
}

/** A code the standard allows and this room does not read. */
export function unsupported(place: MessagePlace, found: UnsupportedCode): Problem {
  return {
    code: found.code,
    where: whereOctet(place, found.section, found.octet),
    what: `${found.table}: value ${found.value} (${found.name}) is not supported.`,
    expected: found.expected,
    remedy: found.remedy,
  };
}

/** Octets that contradict the standard or one another. */
export interface DamagedOctets {
  readonly code: string;
  readonly section: Section;
  readonly octet: number;
  readonly what: string;
  readonly expected: string;
}

/** Octets that cannot be right. */
export function damaged(place: MessagePlace, found: DamagedOctets): Problem {
  return {
    code: found.code,
    where: whereOctet(place, found.section, found.octet),
    what: found.what,
    expected: found.expected,
    remedy: 'The message is damaged or was written wrongly: download it again, or ask another source for it.',
  };
}

/** `grib.too-many-points`: null when the count is within the limit. */
export function tooManyPoints(
  place: MessagePlace,
  at: { section: Section; octet: number },
  count: number,
): Problem | null {
  if (count <= MOST_POINTS) return null;
  return {
    code: 'grib.too-many-points',
    where: whereOctet(place, at.section, at.octet),
    what: `The grid is declared to have ${count} points.`,
    expected: `at most ${MOST_POINTS}`,
    remedy: 'Ask for a smaller area or a coarser grid; if the grid should be small, the file is damaged.',
  };
}

/** `grib.date-impossible`. */
export function impossibleDate(
  place: MessagePlace,
  at: { section: Section; octet: number },
  date: CalendarDate,
): Problem {
  return damaged(place, {
    code: 'grib.date-impossible',
    section: at.section,
    octet: at.octet,
    what: `The date ${formatDate(date)} does not exist.`,
    expected: 'a date and time of the calendar, UTC',
  });
}

/** `grib.bits-unsupported`. */
export function tooWide(place: MessagePlace, at: { section: Section; octet: number }, widthBits: number): Problem {
  return damaged(place, {
    code: 'grib.bits-unsupported',
    section: at.section,
    octet: at.octet,
    what: `Numbers are declared ${widthBits} bits wide.`,
    expected: `0 to ${WIDEST_BITS} bits`,
  });
}

/** `no number`, `infinite`, or the number with six digits. */
export function numberWords(value: number): string {
  if (Number.isNaN(value)) return 'no number';
  return Number.isFinite(value) ? String(Number(value.toPrecision(6))) : 'infinite';
}

/** `grib.message-truncated`. */
export function truncated(place: MessagePlace, fileOctets: number): Problem {
  return {
    code: 'grib.message-truncated',
    where: whereMessage(place),
    what: `The file ends after ${fileOctets} octets, inside this message.`,
    expected: 'the whole message',
    remedy: 'The fields before it are used. The download was cut short: fetch the file again.',
  };
}

/** `grib.end-missing`. */
export function endMissing(place: MessagePlace): Problem {
  return {
    code: 'grib.end-missing',
    where: whereMessage(place),
    what: 'The message does not end with 7777.',
    expected: '7777 after the last section',
    remedy: 'Its fields are used, since all sections fit. Fetch the file again if a value looks wrong.',
  };
}
