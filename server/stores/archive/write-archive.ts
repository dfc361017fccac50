import { createHash } from 'node:crypto';
import { accessSync, constants, existsSync, statSync } from 'node:fs';
import { type FileHandle, open, rename } from 'node:fs/promises';
import path from 'node:path';
import { failed, ok, okUnless, type Result } from '../../../lib/result/index.ts';
import { octetsAt } from '../file-hash.ts';
import { sweepParts, syncFolder, withPart } from '../part-files.ts';
import { fileTooLarge, freeOctetsOn, noRoomFor } from '../store-problems.ts';
import { cannotPack, noPlace, targetThere } from './archive-problems.ts';
import { type ListedFile, type Manifest, MANIFEST_NAME, manifestText } from './manifest.ts';
import { BLOCK_OCTETS, MOST_ENTRY_OCTETS, tarHeader } from './tar-header.ts';

/** One file to be put into an archive. */
export interface ToPack {
  /** Name in the archive. */
  readonly name: string;
  /** Where it lies, or its octets. */
  readonly from: string | Uint8Array;
  /** Known size of what lies on the disk; 0 where it is not known yet. For looking whether there is room. */
  readonly expectedOctets: number;
  /** What its content must hash to, where that is known: a file of another is left out, and a remark says so. */
  readonly sha256?: string;
}

export interface ArchiveTarget {
  readonly file: string;
  /** What is there already is replaced, once the new one is whole. */
  readonly isReplacing: boolean;
}

export interface WrittenArchive {
  readonly file: string;
  readonly sizeOctets: number;
  readonly manifest: Manifest;
}

type ManifestHead = Pick<Manifest, 'slatch' | 'program'> & { readonly madeAtEpochMs: number };

/** Folders and ends of an archive are small beside this [octets]. */
const ROOM_TO_SPARE_OCTETS = 100_000;

/**
 * Writes an archive whole or not at all: a `.part` beside it, on the disk, then renamed.
 *
 * @returns what was written; `file.exists`, `file.not-written`, `store.disk-full`. Throws what the disk throws
 */
export async function writeArchive(
  target: ArchiveTarget,
  head: ManifestHead,
  files: readonly ToPack[],
): Promise<Result<WrittenArchive>> {
  const folder = path.dirname(path.resolve(target.file));
  const free = checkTarget(target);
  if (!free.ok) return free;
  sweepParts(folder);
  const tooLarge = files.filter(({ expectedOctets }) => expectedOctets > MOST_ENTRY_OCTETS);
  const fitting = okUnless(
    tooLarge.map(({ name }) => fileTooLarge(name, MOST_ENTRY_OCTETS)),
    () => null,
  );
  if (!fitting.ok) return fitting;
  const neededOctets = files.reduce((sum, { expectedOctets }) => sum + expectedOctets, ROOM_TO_SPARE_OCTETS);
  const freeOctets = freeOctetsOn(folder);
  if (freeOctets !== null && freeOctets < neededOctets)
    return failed(noRoomFor(target.file, { neededOctets, freeOctets }));
  return withPart(folder, async (part) => {
    const handle = await open(part, 'wx', 0o600);
    let written: Result<Packed>;
    try {
      written = await packedInto(handle, head, files);
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (!written.ok) return written;
    if (!target.isReplacing && existsSync(target.file)) return failed(targetThere(target.file));
    await rename(part, target.file);
    await syncFolder(folder);
    return ok({ file: target.file, ...written.value });
  });
}

/**
 * Whether an archive may be written there.
 *
 * @returns `file.exists`, `file.not-written`
 */
export function checkTarget({ file, isReplacing }: ArchiveTarget): Result<null> {
  const folder = path.dirname(path.resolve(file));
  const is = statSync(file, { throwIfNoEntry: false });
  if (is !== undefined && !is.isFile()) return failed(noPlace(file, 'it is no file'));
  if (is !== undefined && !isReplacing) return failed(targetThere(file));
  if (!existsSync(folder)) return failed(noPlace(file, 'there is no such folder'));
  try {
    accessSync(folder, constants.W_OK);
    return ok(null);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return failed(noPlace(file, `its folder may not be written (${code})`));
  }
}

type Packed = Pick<WrittenArchive, 'sizeOctets' | 'manifest'>;

async function packedInto(
  handle: FileHandle,
  { madeAtEpochMs, ...head }: ManifestHead,
  files: readonly ToPack[],
): Promise<Result<Packed>> {
  const [listed, remarks]: [ListedFile[], string[]] = [[], []];
  let at = 0;
  for (const file of files) {
    // One after the other: each has its place in the archive.
    // oxlint-disable-next-line no-await-in-loop
    const packed = await packFile({ handle, at }, file, madeAtEpochMs);
    if (typeof packed === 'string') {
      if (file.sha256 === undefined) return failed(cannotPack(file.name, packed));
      remarks.push(packed);
      // oxlint-disable-next-line no-await-in-loop
      await handle.truncate(at);
    } else {
      listed.push(packed);
      at += blocksOf(packed.sizeOctets) + BLOCK_OCTETS;
    }
  }
  const madeAtUtc = new Date(madeAtEpochMs).toISOString();
  const manifest: Manifest = { ...head, format: 1, madeAtUtc, remarks, files: listed };
  const octets = Buffer.from(manifestText(manifest));
  const { sizeOctets } = await packOctets({ handle, at }, { name: MANIFEST_NAME, octets }, madeAtEpochMs);
  const end = at + blocksOf(sizeOctets) + BLOCK_OCTETS;
  await writeAt(handle, Buffer.alloc(2 * BLOCK_OCTETS), end);
  return ok({ sizeOctets: end + 2 * BLOCK_OCTETS, manifest });
}

/** Where the next entry goes. */
interface Place {
  readonly handle: FileHandle;
  readonly at: number;
}

/** The entry as it was written, or why it was left out. */
async function packFile(place: Place, file: ToPack, madeAtEpochMs: number): Promise<ListedFile | string> {
  const { name, from } = file;
  const packed =
    typeof from === 'string'
      ? await packFromDisk(place, { name, from })
      : await packOctets(place, { name, octets: Buffer.from(from) }, madeAtEpochMs);
  if (packed === 'gone') return `${name} was left out: it is not there.`;
  if (packed === 'changed') return `${name} was left out: it became shorter while it was read.`;
  if (file.sha256 === undefined || file.sha256 === packed.sha256) return packed;
  return `${name} was left out: it is damaged, its content is not what its name says.`;
}

async function packOctets(
  { handle, at }: Place,
  { name, octets }: { name: string; octets: Buffer },
  modifiedEpochMs: number,
): Promise<ListedFile> {
  const sizeOctets = octets.length;
  await writeAt(handle, tarHeader({ name, sizeOctets, modifiedEpochMs }), at);
  await writeAt(handle, octets, at + BLOCK_OCTETS);
  await writeAt(handle, Buffer.alloc(blocksOf(sizeOctets) - sizeOctets), at + BLOCK_OCTETS + sizeOctets);
  return { name, sizeOctets, sha256: createHash('sha256').update(octets).digest('hex') };
}

async function packFromDisk(
  { handle, at }: Place,
  { name, from }: { name: string; from: string },
): Promise<ListedFile | 'gone' | 'changed'> {
  const source = await openOrNull(from);
  if (source === null) return 'gone';
  try {
    const { size, mtimeMs } = await source.stat();
    await writeAt(handle, tarHeader({ name, sizeOctets: size, modifiedEpochMs: mtimeMs }), at);
    const hash = createHash('sha256');
    let done = 0;
    const begin = at + BLOCK_OCTETS;
    for await (const octets of octetsAt(source, 0, size)) {
      hash.update(octets);
      await writeAt(handle, octets, begin + done);
      done += octets.length;
    }
    if (done < size) return 'changed';
    await writeAt(handle, Buffer.alloc(blocksOf(size) - size), begin + size);
    return { name, sizeOctets: size, sha256: hash.digest('hex') };
  } finally {
    await source.close();
  }
}

async function openOrNull(file: string): Promise<FileHandle | null> {
  try {
    return await open(file, 'r');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null;
    throw error;
  }
}

/** Whole blocks that hold so many octets [octets]. */
export const blocksOf = (octets: number): number => Math.ceil(octets / BLOCK_OCTETS) * BLOCK_OCTETS;

async function writeAt(handle: FileHandle, octets: Uint8Array, at: number): Promise<void> {
  let done = 0;
  while (done < octets.length)
    // oxlint-disable-next-line no-await-in-loop
    done += (await handle.write(octets, done, octets.length - done, at + done)).bytesWritten;
}
