/** Finds the messages of a file and reads their headers. */
import type { Problem } from '../result/index.ts';
import { readEdition1 } from './edition-1/message.ts';
import { readEdition2 } from './edition-2/message.ts';
import type { GribField, GribScan, ReadMessage } from './field.ts';
import { nextStart } from './marks.ts';
import { notGrib } from './not-grib.ts';
import { type MessagePlace, truncated, whereMessage } from './problems.ts';

/** More problems of one file are counted only. */
const MOST_PROBLEMS = 200;

/** Octets of Section 0, by edition. */
const INDICATOR_OCTETS = { 1: 8, 2: 16 } as const;

/**
 * Lists the fields of a GRIB file of edition 1, 2 or both, without decoding values.
 *
 * Octets between messages (bulletin headers, line ends, padding) are passed over. A message that is cut short or
 * damaged becomes a problem; the fields read before the damage, and all other messages, are kept. Of more than 200 problems
 * the others are counted.
 *
 * @param bytes the whole file
 * @param fileName named in problems
 * @returns fields in file order; `problems` says what was passed over, or why this is not a GRIB file at all
 * @see WMO-No. 306, Manual on Codes, Volume I.1 (FM 92-VIII GRIB) and I.2 (FM 92-XIV GRIB)
 */
export function scanGrib(bytes: Uint8Array, fileName: string): GribScan {
  const fields: GribField[] = [];
  const problems: Problem[] = [];
  let messageNumber = 0;
  let untoldCount = 0;
  let startIndex = nextStart(bytes, 0);
  while (startIndex !== null) {
    const place = { fileName, messageNumber: messageNumber + 1, messageOffsetOctet: startIndex };
    const message = readMessage(bytes, place, fields.length + 1);
    if (message !== null) {
      messageNumber += 1;
      for (const field of message.fields) fields.push(field);
      const told = message.problems.slice(0, MOST_PROBLEMS - problems.length);
      problems.push(...told);
      untoldCount += message.problems.length - told.length;
    }
    startIndex = nextStart(bytes, Math.max(startIndex + 4, message?.nextIndex ?? 0));
  }
  if (messageNumber === 0) problems.push(notGrib(bytes, fileName));
  if (untoldCount > 0) problems.push(manyMore({ fileName, messageNumber }, untoldCount));
  return { fields, problems };
}

/** Null when the four letters stand in other text. */
function readMessage(bytes: Uint8Array, place: MessagePlace, firstFieldNumber: number): ReadMessage | null {
  const startIndex = place.messageOffsetOctet;
  const edition = bytes[startIndex + 7];
  if (edition === 0 || edition === 3) return passedOver(editionUnsupported(place, edition), startIndex);
  if (edition !== undefined && edition !== 1 && edition !== 2) return null;
  if (edition === undefined || startIndex + INDICATOR_OCTETS[edition] > bytes.length) {
    return passedOver(truncated(place, bytes.length), startIndex);
  }
  return edition === 1 ? readEdition1(bytes, place, firstFieldNumber) : readEdition2(bytes, place, firstFieldNumber);
}

const passedOver = (problem: Problem, startIndex: number): ReadMessage => ({
  fields: [],
  problems: [problem],
  nextIndex: startIndex + 8,
});

const manyMore = (last: { fileName: string; messageNumber: number }, count: number): Problem => ({
  code: 'grib.many-more',
  where: `${last.fileName}, up to message ${last.messageNumber}`,
  what: `There are ${count} more problems in this file, which are not listed.`,
  expected: 'a file without damage',
  remedy: 'Fetch the file again; what can be read of it is used.',
});

function editionUnsupported(place: MessagePlace, edition: number): Problem {
  return {
    code: 'grib.edition-unsupported',
    where: `${whereMessage(place)}, section 0, octet 8`,
    what: `The message is of GRIB edition ${edition}.`,
    expected: 'edition 1 or 2',
    remedy: 'Ask the source for GRIB edition 2.',
  };
}
