/** Files read whole, whatever stands under their name: a pipe nobody writes to, a device without an end, a file that grows. */
import type { Stats } from 'node:fs';
import { constants } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { setTimeout } from 'node:timers/promises';
import type { Problem } from '../../lib/result/index.ts';

/** Largest file read whole [octets]. */
const MOST_FILE_OCTETS = 2_000_000_000;
/** Octets of a large file looked at before all of it is read. */
const HEAD_OCTETS = 4_000_000;
/** From this size on a file is large [octets]. */
const LARGE_OCTETS = 64_000_000;
/** Largest content of a pipe, which says no size beforehand [octets]. */
const MOST_PIPE_OCTETS = 400_000_000;
/** Longest silence of a pipe that somebody holds open [ms]. */
const MOST_SILENCE_MS = 10_000;
const LOOK_EVERY_MS = 20;
const PIECE_OCTETS = 65_536;

/** What keeps a file from being read, in words; its message is a sentence without its full stop, as errors have it. */
class UnfitFile extends Error {
  readonly expected: string;
  readonly remedy: string;

  constructor(what: string, told: { readonly expected: string; readonly remedy: string }) {
    super(what);
    this.expected = told.expected;
    this.remedy = told.remedy;
  }
}

/** Room for so many octets, zeros. */
type Room = (sizeOctets: number) => Uint8Array;

const ownRoom: Room = (sizeOctets) => new Uint8Array(sizeOctets);

/**
 * Reads a file, or what comes through a pipe.
 *
 * Refused are folders, devices, pipes that stay silent for 10 s, files that change meanwhile, those above 2 GB, and those
 * above 64 MB without a GRIB message near their beginning, for nothing else is so long. Errors are those of the file system,
 * or such a refusal: `fileProblem` puts both into words.
 */
export async function readWholeFile(path: string, room: Room = ownRoom): Promise<Uint8Array> {
  // Without it, opening a pipe waits for a writer, and nothing stops it. There is no such flag, and no such pipe, on Windows.
  // oxlint-disable-next-line typescript/no-unnecessary-condition
  const file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stats = await file.stat();
    refuseKind(stats);
    if (stats.size > 0) return await readSized(file, stats, room);
    const bytes = await readToEnd(file, room);
    if (stats.isFIFO() && bytes.length === 0) throw silent();
    return bytes;
  } finally {
    await file.close();
  }
}

function refuseKind(stats: Stats): void {
  if (stats.isFile() || stats.isFIFO()) return;
  const kind = stats.isDirectory() ? 'a folder' : stats.isSocket() ? 'a socket' : 'a device';
  throw new UnfitFile(`This is ${kind}, not a file`, { expected: 'a file', remedy: 'Name the file itself.' });
}

async function readSized(file: FileHandle, before: Stats, room: Room): Promise<Uint8Array> {
  const { size } = before;
  if (size > MOST_FILE_OCTETS) throw tooLarge(size);
  if (size > LARGE_OCTETS) await refuseHead(file, size);
  const bytes = room(size);
  let readOctets = 0;
  while (readOctets < size) {
    const { bytesRead } = await file.read(bytes, readOctets, size - readOctets, readOctets);
    if (bytesRead === 0) break;
    readOctets += bytesRead;
  }
  const after = await file.stat();
  if (readOctets !== size || after.size !== size || after.mtimeMs !== before.mtimeMs) throw changed(size, after.size);
  return bytes;
}

/** Throws unless there is a GRIB message near the beginning of a large file. */
export async function refuseHead(file: FileHandle, size: number): Promise<void> {
  const head = Buffer.alloc(HEAD_OCTETS);
  await file.read(head, 0, HEAD_OCTETS, 0);
  if (head.includes('GRIB')) return;
  throw new UnfitFile(`Its first ${inMb(HEAD_OCTETS)} of ${inMb(size)} hold no GRIB message`, {
    expected: 'messages that begin with the letters GRIB',
    remedy: 'Check that this is the forecast file.',
  });
}

/** Pipes, and files that say no size, such as those the system makes up while they are read. */
async function readToEnd(file: FileHandle, room: Room): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  const buffer = new Uint8Array(PIECE_OCTETS);
  let sizeOctets = 0;
  for (;;) {
    const readOctets = await readPiece(file, buffer);
    if (readOctets === 0) break;
    sizeOctets += readOctets;
    if (sizeOctets > MOST_PIPE_OCTETS) throw tooLarge(sizeOctets, MOST_PIPE_OCTETS);
    // A copy: of a room for each, pipes that are written octet by octet would fill the memory.
    pieces.push(buffer.slice(0, readOctets));
  }
  const bytes = room(sizeOctets);
  let index = 0;
  for (const piece of pieces) {
    bytes.set(piece, index);
    index += piece.length;
  }
  return bytes;
}

/** Octets read; 0 at the end. */
async function readPiece(file: FileHandle, piece: Uint8Array): Promise<number> {
  for (let silentMs = 0; silentMs < MOST_SILENCE_MS; silentMs += LOOK_EVERY_MS) {
    try {
      return (await file.read(piece, 0, piece.length, null)).bytesRead;
    } catch (error) {
      if (codeOf(error) !== 'EAGAIN') throw error;
    }
    await setTimeout(LOOK_EVERY_MS);
  }
  throw silent();
}

const silent = (): UnfitFile =>
  new UnfitFile('This is a pipe, and nothing comes through it', {
    expected: 'a file, or a pipe that is written to',
    remedy: 'Write to a file first, and name that.',
  });

const inMb = (octets: number): string => `${Math.round(octets / 1_000_000)} MB`;

const tooLarge = (sizeOctets: number, mostOctets = MOST_FILE_OCTETS): UnfitFile =>
  new UnfitFile(`It has ${inMb(sizeOctets)} or more`, {
    expected: `at most ${inMb(mostOctets)}`,
    remedy: 'Ask for a smaller area, fewer hours or fewer members, or divide it into several files.',
  });

const changed = (before: number, after: number): UnfitFile =>
  new UnfitFile(`It changed while it was read, from ${before} to ${after} octets`, {
    expected: 'a file that is written to its end',
    remedy: 'Wait until it has been fetched or copied whole, then try again.',
  });

const codeOf = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : 'unknown');

const READ_ERRORS: Readonly<Record<string, string>> = {
  ENOENT: 'There is no such file.',
  ENOTDIR: 'A part of its path is a file, not a folder.',
  EISDIR: 'This is a folder.',
  EACCES: 'The file may not be read by you.',
  EPERM: 'The file may not be read by you.',
  ELOOP: 'Its links lead in a circle.',
  ENAMETOOLONG: 'The name is too long for a file.',
  ERR_INVALID_ARG_VALUE: 'The name holds a character no file name may have.',
  ENXIO: 'Nothing stands behind this name.',
  EIO: 'The disk could not read it.',
};

/** `file.unreadable`: why a file was not read, in words. */
export function fileProblem(error: unknown, told: { readonly where: string; readonly remedy: string }): Problem {
  const about = { code: 'file.unreadable', where: told.where };
  if (error instanceof UnfitFile) {
    const { message, expected, remedy } = error;
    return { ...about, what: `${message}.`, expected, remedy };
  }
  const code = codeOf(error);
  const what = READ_ERRORS[code] ?? `It cannot be read (${code}).`;
  return { ...about, what, expected: 'a file that can be read', remedy: told.remedy };
}
