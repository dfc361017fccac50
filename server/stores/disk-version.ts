/** The version of a database as its files have it, read without opening it: what is newer must not be touched. */
import { closeSync, existsSync, openSync, readSync } from 'node:fs';

/** SQLite database file format, section 1.3: the magic, and user_version at octet 60 of the first page. */
const MAGIC = 'SQLite format 3\0';
const USER_VERSION_AT = 60;
const DATABASE_HEADER_OCTETS = 100;

/** The same, section 4.1 and 4.2: a write-ahead log begins with 32 octets, each of its frames with 24. */
const LOG_HEADER_OCTETS = 32;
const FRAME_HEADER_OCTETS = 24;
const LEAST_PAGE_OCTETS = 512;
const MOST_PAGE_OCTETS = 65_536;
const LITTLE_ENDIAN_SUMS = 0x377f0682;
const BIG_ENDIAN_SUMS = 0x377f0683;

/**
 * `user_version` of a database file with its write-ahead log.
 *
 * @returns 0 of a file that is empty or not there; null of one that is no database
 */
export function versionOnDisk(path: string): number | null {
  if (!existsSync(path)) return 0;
  const header = firstOctets(path, DATABASE_HEADER_OCTETS);
  if (header.length > 0 && header.toString('latin1', 0, MAGIC.length) !== MAGIC) return null;
  const inFile = header.length < DATABASE_HEADER_OCTETS ? 0 : header.readInt32BE(USER_VERSION_AT);
  const logPath = `${path}-wal`;
  return existsSync(logPath) ? (versionInLog(logPath) ?? inFile) : inFile;
}

/** The version in the last first page that was committed to the log; null: there is none. */
function versionInLog(path: string): number | null {
  const file = openSync(path, 'r');
  try {
    const header = readAt(file, 0, LOG_HEADER_OCTETS);
    const frames = header === null ? null : framesOf(file, header);
    if (frames === null) return null;
    let committed: number | null = null;
    let written: number | null = null;
    for (const { pageNumber, page, isCommit } of frames) {
      if (pageNumber === 1) written = page.readInt32BE(USER_VERSION_AT);
      if (isCommit) committed = written;
    }
    return committed;
  } finally {
    closeSync(file);
  }
}

interface Frame {
  readonly pageNumber: number;
  readonly page: Buffer;
  readonly isCommit: boolean;
}

/** The frames of the log that count: its own salt, and sums that hold from its beginning on (section 4.2). */
function* framesOf(file: number, header: Buffer): Generator<Frame> {
  const magic = header.readUInt32BE(0);
  if (magic !== LITTLE_ENDIAN_SUMS && magic !== BIG_ENDIAN_SUMS) return;
  const isBigEndian = magic === BIG_ENDIAN_SUMS;
  const pageOctets = header.readUInt32BE(8);
  if (pageOctets < LEAST_PAGE_OCTETS || pageOctets > MOST_PAGE_OCTETS) return;
  const salt = header.subarray(16, 24);
  let sums = summed([0, 0], header.subarray(0, 24), isBigEndian);
  if (!isSumOf(sums, header, 24)) return;
  const frameOctets = FRAME_HEADER_OCTETS + pageOctets;
  for (let at = LOG_HEADER_OCTETS; ; at += frameOctets) {
    const frame = readAt(file, at, frameOctets);
    if (frame === null || !frame.subarray(8, 16).equals(salt)) return;
    const page = frame.subarray(FRAME_HEADER_OCTETS);
    sums = summed(summed(sums, frame.subarray(0, 8), isBigEndian), page, isBigEndian);
    if (!isSumOf(sums, frame, 16)) return;
    yield { pageNumber: frame.readUInt32BE(0), page, isCommit: frame.readUInt32BE(4) !== 0 };
  }
}

type Sums = readonly [first: number, second: number];

/** Section 4.2: over pairs of 32-bit words, s0 += x0 + s1 and s1 += x1 + s0. */
function summed([first, second]: Sums, octets: Buffer, isBigEndian: boolean): Sums {
  let [s0, s1] = [first, second];
  for (let at = 0; at + 8 <= octets.length; at += 8) {
    s0 = (s0 + (isBigEndian ? octets.readUInt32BE(at) : octets.readUInt32LE(at)) + s1) >>> 0;
    s1 = (s1 + (isBigEndian ? octets.readUInt32BE(at + 4) : octets.readUInt32LE(at + 4)) + s0) >>> 0;
  }
  return [s0, s1];
}

const isSumOf = ([first, second]: Sums, header: Buffer, at: number): boolean =>
  header.readUInt32BE(at) === first && header.readUInt32BE(at + 4) === second;

/** So many octets of an open file, or null where it ends before. */
function readAt(file: number, at: number, octets: number): Buffer | null {
  const read = Buffer.alloc(octets);
  return readSync(file, read, 0, octets, at) === octets ? read : null;
}

function firstOctets(path: string, octets: number): Buffer {
  const file = openSync(path, 'r');
  try {
    const read = Buffer.alloc(octets);
    return read.subarray(0, readSync(file, read, 0, octets, 0));
  } finally {
    closeSync(file);
  }
}
