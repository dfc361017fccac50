/** A passage with all it needs as one file: the passage, its track, its forecasts, and its log. */
import { existsSync, statSync } from 'node:fs';
import path from 'node:path';
import { gpxFileOf, type Passage } from '../../lib/passage/index.ts';
import { failed, ok, okUnless, type Problem, type Result } from '../../lib/result/index.ts';
import { targetThere } from './archive/archive-problems.ts';
import { isSafeName } from './archive/entry-name.ts';
import { MANIFEST_NAME } from './archive/manifest.ts';
import type { Archive } from './archive/read-archive.ts';
import { isTarName } from './archive/tar-header.ts';
import { isOccupied, unpackWhole } from './archive/unpack-whole.ts';
import { type ArchiveTarget, type ToPack, writeArchive, type WrittenArchive } from './archive/write-archive.ts';
import { gribPath } from './grib-files.ts';
import { checkPassage, type PassageText, readPassageText, storedHash } from './passage-files.ts';
import { attemptLater } from './store-problems.ts';

/** Names in the archive that are always these. */
const PASSAGE_NAME = 'passage.json';
const LOG_NAME = 'log.jsonl';
const OWN_NAMES = new Set([PASSAGE_NAME, LOG_NAME, MANIFEST_NAME].map((name) => name.toLowerCase()));

export interface ExportOf {
  readonly passage: PassageText;
  /** The log as JSON Lines; null: none goes with it. */
  readonly log: Uint8Array | null;
  readonly target: ArchiveTarget;
  /** Version of the program. */
  readonly program: string;
  readonly atEpochMs: number;
}

/**
 * Writes a passage and every file it names to one archive. Names that lead out of its folder, or into the store, are given
 * others below it; else the text of the passage goes in as it is.
 *
 * @returns every problem of the passage, `file.unreadable` for each file that is not there, `passage.forecast-address`,
 *   `file.exists`, `store.disk-full`
 */
export function exportPassage({ passage, log, target, ...head }: ExportOf): Promise<Result<WrittenArchive>> {
  return attemptLater(target.file, async () => {
    const checked = await checkPassage(passage);
    if (!checked.ok) return checked;
    const named = namedFiles(passage, checked.value);
    const there = okUnless(named.flatMap(notThere), () => null);
    if (!there.ok) return there;
    const text = Buffer.from(withNames(passage.text, named));
    const files: ToPack[] = [
      { name: PASSAGE_NAME, from: text, expectedOctets: text.length },
      ...(log === null ? [] : [{ name: LOG_NAME, from: log, expectedOctets: log.length }]),
      ...packedOnce(named),
    ];
    return writeArchive(target, { slatch: 'passage', program: head.program, madeAtEpochMs: head.atEpochMs }, files);
  });
}

/** A file a passage names. */
interface NamedFile {
  /** As the passage has it. */
  readonly given: string;
  /** In the archive, and in the passage there. */
  readonly name: string;
  readonly from: string;
}

/** The track's file first, where it has one; then the forecasts, in their order. */
function namedFiles(passage: PassageText, { forecasts }: Passage): readonly NamedFile[] {
  const gpx = gpxFileOf(passage.text);
  const taken = new Map<string, NamedFile>();
  return [...(gpx === null ? [] : [gpx]), ...forecasts].map((given, index) => {
    const before = taken.get(given);
    if (before !== undefined) return before;
    const named = { given, from: pathOf(given, passage), name: nameFor(given, index, [...taken.values()]) };
    taken.set(given, named);
    return named;
  });
}

function pathOf(given: string, { folder, storeFolder }: PassageText): string {
  const hash = storeFolder === null ? null : storedHash(given);
  return hash === null || storeFolder === null
    ? path.resolve(folder, given)
    : gribPath(path.join(storeFolder, 'grib'), hash);
}

/** The name it has, where that is a plain one below the folder; else one made of it. */
function nameFor(given: string, index: number, taken: readonly NamedFile[]): string {
  const isFree = (name: string): boolean =>
    !OWN_NAMES.has(name.toLowerCase()) && !taken.some((other) => sameOnSome(other.name, name));
  const fits = (name: string): boolean => isSafeName(name) && isTarName(name) && isFree(name);
  if (fits(given)) return given;
  const base =
    given
      .replace(/^store:/, '')
      .split(/[/\\]/)
      .at(-1) ?? '';
  const plain = base.replaceAll(/[^\w.-]/g, '_').slice(-80);
  const made = `files/${index + 1}-${plain.replace(/[. ]+$/, '')}`;
  return fits(made) ? made : `files/${index + 1}`;
}

const sameOnSome = (one: string, other: string): boolean =>
  one.normalize('NFC').toLowerCase() === other.normalize('NFC').toLowerCase();

function notThere({ given, from }: NamedFile): readonly Problem[] {
  const remedy = 'Put it where the passage looks for it, or take it out of the passage.';
  const problem = { code: 'file.unreadable', where: given, expected: 'a file that can be read', remedy };
  if (/^[a-z]+:\/\//i.test(given)) return [{ ...problem, what: 'This is an address, and no file.' }];
  if (!existsSync(from)) return [{ ...problem, what: 'The passage names it, and there is no such file.' }];
  return statSync(from).isFile() ? [] : [{ ...problem, what: 'It is no file.' }];
}

const packedOnce = (named: readonly NamedFile[]): readonly ToPack[] =>
  [...new Set(named)].map(({ name, from }) => ({ name, from, expectedOctets: statSync(from).size }));

/** The text with the names of the archive; to the letter as it is where they are the same. */
function withNames(text: string, named: readonly NamedFile[]): string {
  const changed = new Map(named.filter(({ given, name }) => given !== name).map(({ given, name }) => [given, name]));
  if (changed.size === 0) return text;
  const file: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
  if (typeof file !== 'object' || file === null) throw new Error('a passage that was checked is an object');
  const renamed = (value: unknown): unknown => (typeof value === 'string' ? (changed.get(value) ?? value) : value);
  const entries = Object.entries(file).map(([key, value]: [string, unknown]): [string, unknown] => {
    if (key === 'forecasts' && Array.isArray(value)) return [key, value.map(renamed)];
    if (key !== 'track' || typeof value !== 'object' || value === null || !('gpx' in value)) return [key, value];
    return [key, { ...value, gpx: renamed(value.gpx) }];
  });
  return JSON.stringify(Object.fromEntries(entries), null, 2);
}

export interface ImportOf {
  /** The archive. */
  readonly file: string;
  /** Folder for the passage: new or empty. */
  readonly folder: string;
}

export interface Imported {
  /** The passage file. */
  readonly passage: string;
  readonly name: string;
  /** Its log; null: none came with it. */
  readonly log: string | null;
  readonly fileCount: number;
  readonly madeAtUtc: string;
}

/**
 * A passage from its archive, whole or not at all: held against its hashes, and checked as any other passage.
 *
 * @returns `file.exists` where the folder holds anything, `archive.*`, every problem of the passage
 */
export function importPassage({ file, folder }: ImportOf): Promise<Result<Imported>> {
  return attemptLater(folder, async () => {
    if (isOccupied(folder)) return failed({ ...targetThere(folder), ...NEW_FOLDER });
    let name = '';
    const unpacked = await unpackWhole({
      file,
      kind: 'passage',
      folder,
      asideFolder: null,
      checkNames: (archive) => (has(archive, PASSAGE_NAME) ? ok(null) : failed(noPassage(file))),
      checkFolder: async (fresh) => {
        const checked = await checkUnpacked(fresh, file);
        if (checked.ok) name = checked.value.name;
        return checked.ok ? ok(null) : checked;
      },
    });
    if (!unpacked.ok) return unpacked;
    const { manifest } = unpacked.value;
    return ok({
      passage: path.join(folder, PASSAGE_NAME),
      name,
      log: has(unpacked.value, LOG_NAME) ? path.join(folder, LOG_NAME) : null,
      fileCount: manifest.files.length,
      madeAtUtc: manifest.madeAtUtc,
    });
  });
}

const has = ({ entries }: Archive, wanted: string): boolean => entries.some(({ name }) => name === wanted);

/** The passage can be read, and names nothing but what came with it. */
async function checkUnpacked(fresh: string, where: string): Promise<Result<Passage>> {
  const read = await readPassageText(path.join(fresh, PASSAGE_NAME));
  if (!read.ok) return read;
  const gpx = gpxFileOf(read.value.text);
  const outside = (name: string): readonly Problem[] =>
    isSafeName(name) && existsSync(path.join(fresh, name)) ? [] : [notInside(where, name)];
  const track = okUnless(gpx === null ? [] : outside(gpx), () => null);
  if (!track.ok) return track;
  const passage = await checkPassage({ ...read.value, where: `${where}, ${PASSAGE_NAME}` });
  return passage.ok ? okUnless(passage.value.forecasts.flatMap(outside), () => passage.value) : passage;
}

const NEW_FOLDER = {
  what: 'There is something in this folder already; nothing was changed.',
  expected: 'a folder that is new or empty',
  remedy: 'Name another folder with --to.',
};

const noPassage = (where: string): Problem => ({
  code: 'archive.no-passage',
  where,
  what: `It holds no ${PASSAGE_NAME}.`,
  expected: 'an archive of a passage',
  remedy: 'Export the passage again.',
});

const notInside = (where: string, name: string): Problem => ({
  code: 'archive.not-inside',
  where: `${where}, ${PASSAGE_NAME}`,
  what: `The passage names "${name}", which is not in the archive.`,
  expected: 'only files that came with it',
  remedy: 'Export the passage again.',
});
