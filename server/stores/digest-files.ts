/** Forecasts that came as a message: a digest in a text file. */
import type { Forecast } from '../../lib/forecast/index.ts';
import { forecastOfDigest, readMessages, type ReadMessages } from '../../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';

export interface NamedOctets {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A text longer than this is no message [octets]; a digest of ten days takes three thousand. */
const MOST_TEXT_OCTETS = 2_000_000;
/** Begins every part of a digest, in capitals or as a telephone may have changed it. */
const DIGEST_START = 'sl;d.';

/** Whether a file holds a digest and no GRIB. */
export const holdsDigest = ({ bytes }: NamedOctets): boolean =>
  bytes.length <= MOST_TEXT_OCTETS &&
  !holdsGrib(bytes) &&
  withoutBlanks(textOf(bytes)).toLowerCase().includes(DIGEST_START);

/** The mark of a GRIB message with its edition in the eighth octet (WMO-No. 306, FM 92, section 0); mail only has the word. */
function holdsGrib(bytes: Uint8Array): boolean {
  const octets = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = octets.indexOf('GRIB'); at >= 0; at = octets.indexOf('GRIB', at + 4))
    if (octets[at + 7] === 1 || octets[at + 7] === 2) return true;
  return false;
}

/**
 * The forecast of files among which is a digest: it is the whole forecast, for it is a strip along one way.
 *
 * @returns `passage.digest-not-alone`, `passage.several-digests`, or why the digest cannot be read
 */
export function forecastOfDigestFiles(files: readonly NamedOctets[], where: string): Result<Forecast> {
  const [file, ...others] = files;
  if (file === undefined || others.length > 0) return failed(notAlone(files, where));
  // Who wrote it is looked at when a message comes in; this is a file of our own.
  const found = readMessages(textOf(file.bytes), { where: file.name, keyOctets: null });
  const digests = found.read.flatMap(({ message }) => (message.kind === 'digest' ? [message.digest] : []));
  const [digest, ...more] = digests;
  if (digest === undefined) return failed(...reasonsOf(found, file.name));
  return more.length === 0 ? ok(forecastOfDigest(digest)) : failed(several(digests.length, file.name));
}

function reasonsOf({ unread, damaged }: ReadMessages, where: string): readonly [Problem, ...Problem[]] {
  const [first, ...rest] = [
    ...unread.filter(({ kind }) => kind === 'digest').flatMap(({ problems }) => problems),
    ...damaged.map(({ problem }) => problem),
  ];
  return [first ?? unreadable(where), ...rest];
}

/** Memory that threads share cannot be decoded where it lies. */
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(Uint8Array.from(bytes));

const withoutBlanks = (text: string): string => text.replaceAll(/[\s>]/g, '');

const notAlone = (files: readonly NamedOctets[], where: string): Problem => ({
  code: 'passage.digest-not-alone',
  where,
  what: `A digest stands among several forecasts: ${files.map(({ name }) => name).join(', ')}.`,
  expected: 'a digest alone, or GRIB files alone',
  remedy: 'Plan with the digest alone or without it: it is a forecast of its own, and cannot fill the gaps of another.',
});

const several = (digestCount: number, where: string): Problem => ({
  code: 'passage.several-digests',
  where,
  what: `It holds ${digestCount} digests.`,
  expected: 'one digest',
  remedy: 'Keep the newest in a file of its own.',
});

const unreadable = (where: string): Problem => ({
  code: 'passage.no-digest',
  where,
  what: 'It looks like a digest, and none can be read in it.',
  expected: 'a digest with all its parts',
  remedy: 'Ask for it again.',
});
