import { createHash } from 'node:crypto';
import { type FileHandle, open, stat } from 'node:fs/promises';
import path from 'node:path';
import { failed, ok, okUnless, type Problem, type Result } from '../../../lib/result/index.ts';
import { octetsAt } from '../file-hash.ts';
import { makeFolder } from '../make-folder.ts';
import { syncFolder } from '../part-files.ts';
import type { ArchiveKind } from './archive-kind.ts';
import {
  archiveCut,
  fileUnreadable,
  manifestMissing,
  manifestUnreadable,
  noArchive,
  notAsListed,
  strangeEntry,
  tooMany,
  unsafeName,
} from './archive-problems.ts';
import { isSafeName } from './entry-name.ts';
import { type ListedFile, type Manifest, MANIFEST_NAME, readManifest } from './manifest.ts';
import { BLOCK_OCTETS, readTarHeader } from './tar-header.ts';
import { blocksOf } from './write-archive.ts';

/** More than anybody keeps. */
const MOST_ENTRIES_COUNT = 100_000;
/** The list of as many files is a fifth of this [octets]. */
const MOST_MANIFEST_OCTETS = 100_000_000;

interface Entry {
  readonly name: string;
  readonly sizeOctets: number;
  /** Octet of the archive at which the content begins. */
  readonly atOctet: number;
}

/** An archive whose list and entries agree; what the contents are is still to be seen. */
export interface Archive {
  readonly manifest: Manifest;
  readonly entries: readonly (Entry & ListedFile)[];
}

/** Opens an archive, does the work with it, and closes it; `file.unreadable`. */
export async function withArchive<T>(
  file: string,
  kind: ArchiveKind,
  work: (archive: Archive, handle: FileHandle) => Promise<Result<T>>,
): Promise<Result<T>> {
  const handle = await openFile(file);
  if (typeof handle === 'string') return failed(fileUnreadable(file, handle));
  try {
    const archive = await readArchive(handle, kind, file);
    return archive.ok ? await work(archive.value, handle) : archive;
  } finally {
    await handle.close();
  }
}

/** Or why there is nothing to be read. */
async function openFile(file: string): Promise<FileHandle | string> {
  try {
    // A pipe would wait for its writer.
    if (!(await stat(file)).isFile()) return 'It is no file.';
    return await open(file, 'r');
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return code === 'ENOENT' ? 'There is no such file.' : `It cannot be read (${code}).`;
  }
}

/** The entries as the archive lists them; or why it is none of ours, not whole, or not to be trusted. */
async function readArchive(handle: FileHandle, kind: ArchiveKind, where: string): Promise<Result<Archive>> {
  const found = await entriesOf(handle, where);
  if (!found.ok) return found;
  const entries = found.value.slice(0, -1);
  const last = found.value.at(-1);
  if (last?.name !== MANIFEST_NAME) return failed(manifestMissing(where));
  if (last.sizeOctets > MOST_MANIFEST_OCTETS) return failed(manifestUnreadable(where));
  const text = Buffer.alloc(last.sizeOctets);
  await handle.read(text, 0, last.sizeOctets, last.atOctet);
  const manifest = readManifest(text.toString('utf8'), kind, where);
  return manifest.ok ? agreed(manifest.value, entries, where) : manifest;
}

async function entriesOf(handle: FileHandle, where: string): Promise<Result<readonly Entry[]>> {
  const { size } = await handle.stat();
  const entries: Entry[] = [];
  const names = new Set<string>();
  const block = Buffer.alloc(BLOCK_OCTETS);
  let at = 0;
  for (;;) {
    if (entries.length > MOST_ENTRIES_COUNT) return failed(tooMany(where, MOST_ENTRIES_COUNT));
    if (at + BLOCK_OCTETS > size) return failed(at === 0 ? noArchive(where, 0) : archiveCut(where, size));
    // oxlint-disable-next-line no-await-in-loop
    await handle.read(block, 0, BLOCK_OCTETS, at);
    const header = readTarHeader(block);
    if (header === 'end') return ok(entries);
    if (header === 'damaged') return failed(noArchive(where, at));
    const { name, sizeOctets, kind } = header;
    if (kind === 'other') return failed(strangeEntry(where, name));
    if (!isSafeName(kind === 'folder' ? name.replace(/\/$/, '') : name)) return failed(unsafeName(where, name));
    if (kind === 'file') {
      // Letters that differ in case or in how an accent is written are one name to some systems.
      const key = name.normalize('NFC').toLowerCase();
      if (names.has(key)) return failed(unsafeName(where, name));
      names.add(key);
      entries.push({ name, sizeOctets, atOctet: at + BLOCK_OCTETS });
      at += blocksOf(sizeOctets);
      if (at + BLOCK_OCTETS > size) return failed(archiveCut(where, size));
    }
    at += BLOCK_OCTETS;
  }
}

function agreed(manifest: Manifest, entries: readonly Entry[], where: string): Result<Archive> {
  const listed = new Map(manifest.files.map((one) => [one.name, one]));
  const there = new Set(entries.map(({ name }) => name));
  const problems = manifest.files.flatMap(({ name }) =>
    there.has(name) ? [] : [notAsListed(where, name, 'It is listed, and not in the archive.')],
  );
  const both: (Entry & ListedFile)[] = [];
  for (const entry of entries) {
    const one = listed.get(entry.name);
    if (one === undefined) problems.push(notAsListed(where, entry.name, 'It is in the archive, and not listed.'));
    else if (one.sizeOctets !== entry.sizeOctets)
      problems.push(notAsListed(where, entry.name, `It has ${entry.sizeOctets} octets, not ${one.sizeOctets}.`));
    else both.push({ ...entry, sha256: one.sha256 });
  }
  return okUnless(problems, () => ({ manifest, entries: both }));
}

/**
 * Writes every file of an archive below a folder that is new, each on the disk when it returns.
 *
 * @returns `archive.not-as-listed` for each file whose content is not what the list says; throws what the disk throws
 */
export async function unpack(
  { archive, handle, where }: { archive: Archive; handle: FileHandle; where: string },
  folder: string,
): Promise<Result<null>> {
  const problems: Problem[] = [];
  const folders = new Set([folder]);
  for (const entry of archive.entries) {
    const target = path.join(folder, entry.name);
    const inFolder = path.dirname(target);
    if (!folders.has(inFolder)) makeFolder(inFolder);
    folders.add(inFolder);
    // oxlint-disable-next-line no-await-in-loop
    const sha256 = await copied(handle, entry, target);
    if (sha256 !== entry.sha256) problems.push(otherContent(where, entry.name));
  }
  // oxlint-disable-next-line no-await-in-loop
  for (const one of folders) await syncFolder(one);
  return okUnless(problems, () => null);
}

const otherContent = (where: string, name: string): Problem =>
  notAsListed(where, name, 'Its content is not what was put in: its SHA-256 is another.');

/** Looks at the content of every file, and writes nothing. */
export async function verify({
  archive,
  handle,
  where,
}: {
  archive: Archive;
  handle: FileHandle;
  where: string;
}): Promise<Result<null>> {
  const problems: Problem[] = [];
  for (const entry of archive.entries)
    // oxlint-disable-next-line no-await-in-loop
    if ((await copied(handle, entry, null)) !== entry.sha256) problems.push(otherContent(where, entry.name));
  return okUnless(problems, () => null);
}

/** SHA-256 of an entry, which is written to a file on the way. */
async function copied(handle: FileHandle, { atOctet, sizeOctets }: Entry, target: string | null): Promise<string> {
  const hash = createHash('sha256');
  const file = target === null ? null : await open(target, 'wx', 0o600);
  try {
    for await (const chunk of octetsAt(handle, atOctet, sizeOctets)) {
      hash.update(chunk);
      await file?.writeFile(chunk);
    }
    await file?.sync();
  } finally {
    await file?.close();
  }
  return hash.digest('hex');
}
