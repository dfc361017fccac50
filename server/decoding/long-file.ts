/** Files too long to be held: octets are read when they are asked for, and no more than one piece of them is held. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { FilePiece, UnheldFile } from '../../lib/forecast/index.ts';

/** Octets of whole messages taken together. */
const PIECE_OCTETS = 64_000_000;
/** Longest message believed [octets]; 30 million points of 64 bits take less. */
const MOST_MESSAGE_OCTETS = 300_000_000;
/** Octets searched at once for the beginning of a message. */
const SEARCH_OCTETS = 1_000_000;
/** Section 0 of edition 2; that of edition 1 is shorter. */
const INDICATOR_OCTETS = 16;
const START = 'GRIB';

/**
 * A file whose octets stay on the disk. Throws what the file system throws, here and while its headers are read; one that has
 * become shorter or is gone gives fewer octets, or none.
 *
 * @param pieceOctets for tests
 */
export function longFile(path: string, name: string, pieceOctets = PIECE_OCTETS): UnheldFile {
  const sizeOctets = withFile(path, (fd) => fstatSync(fd).size);
  const read = (startIndex: number, lengthOctets: number): Uint8Array => {
    try {
      return withFile(path, (fd) => plain(readInto(fd, startIndex, Buffer.allocUnsafeSlow(lengthOctets))));
    } catch {
      // Gone since its headers were read: none of its octets are those that were listed, and the decoder says so.
      return new Uint8Array();
    }
  };
  return { name, unheld: { sizeOctets, read, pieces: () => piecesOf(path, { sizeOctets, pieceOctets }) } };
}

/** Slices of a plain array are copies; those of a Buffer would keep all of it. */
const plain = ({ buffer, byteOffset, length }: Buffer): Uint8Array => new Uint8Array(buffer, byteOffset, length);

function withFile<T>(path: string, work: (fd: number) => T): T {
  const fd = openSync(path, 'r');
  try {
    return work(fd);
  } finally {
    closeSync(fd);
  }
}

function* piecesOf(path: string, of: PieceSizes): Generator<FilePiece> {
  const fd = openSync(path, 'r');
  try {
    // One room for all pieces in turn.
    let room = Buffer.alloc(0);
    let startIndex = nextStart(fd, 0, of.sizeOctets);
    if (startIndex === null) yield { startIndex: 0, bytes: readInto(fd, 0, Buffer.alloc(SEARCH_OCTETS)) };
    while (startIndex !== null) {
      const endIndex = pieceEnd(fd, startIndex, of);
      const lengthOctets = endIndex - startIndex;
      if (room.length < lengthOctets) room = Buffer.allocUnsafeSlow(lengthOctets);
      yield { startIndex, bytes: readInto(fd, startIndex, room.subarray(0, lengthOctets)) };
      startIndex = nextStart(fd, endIndex, of.sizeOctets);
    }
  } finally {
    closeSync(fd);
  }
}

interface PieceSizes {
  readonly sizeOctets: number;
  readonly pieceOctets: number;
}

/** Behind whole messages that follow one another; behind a message whose length cannot be so, the beginning of the next one. */
function pieceEnd(fd: number, startIndex: number, { sizeOctets, pieceOctets }: PieceSizes): number {
  let index = startIndex;
  while (index - startIndex < pieceOctets) {
    const lengthOctets = messageLength(readInto(fd, index, Buffer.alloc(INDICATOR_OCTETS)));
    const isBelieved =
      lengthOctets !== null && lengthOctets <= MOST_MESSAGE_OCTETS && index + lengthOctets <= sizeOctets;
    if (isBelieved) index += lengthOctets;
    else if (index > startIndex) return index;
    else {
      const next = nextStart(fd, index + START.length, sizeOctets) ?? sizeOctets;
      return Math.min(next, index + MOST_MESSAGE_OCTETS);
    }
  }
  return index;
}

/** Declared in Section 0: octets 5 to 7 in edition 1, 9 to 16 in edition 2; null: no message begins here. */
function messageLength(indicator: Buffer): number | null {
  if (indicator.length < INDICATOR_OCTETS || indicator.toString('latin1', 0, START.length) !== START) return null;
  if (indicator[7] === 1) return positive(indicator.readUIntBE(4, 3));
  return indicator[7] === 2 ? positive(Number(indicator.readBigUInt64BE(8))) : null;
}

const positive = (lengthOctets: number): number | null => (lengthOctets > INDICATOR_OCTETS ? lengthOctets : null);

/** Index of the next start mark at or after `fromIndex`; null: there is none. */
function nextStart(fd: number, fromIndex: number, sizeOctets: number): number | null {
  const searched = Buffer.allocUnsafeSlow(SEARCH_OCTETS);
  // Each search overlaps the one before by a mark less one octet.
  for (let index = fromIndex; index < sizeOctets; index += SEARCH_OCTETS - START.length + 1) {
    const found = readInto(fd, index, searched).indexOf(START, 0, 'latin1');
    if (found >= 0) return index + found;
  }
  return null;
}

/** As many octets as there are, up to the length of the room. */
function readInto(fd: number, startIndex: number, room: Buffer): Buffer {
  let readOctets = 0;
  while (readOctets < room.length) {
    const count = readSync(fd, room, readOctets, room.length - readOctets, startIndex + readOctets);
    if (count === 0) break;
    readOctets += count;
  }
  return room.subarray(0, readOctets);
}
