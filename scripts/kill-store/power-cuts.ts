/**
 * What a power cut can do to a disk that lies: the end of the write-ahead log is missing, empty, or anything.
 *
 * On a disk that keeps its word nothing of it can be lost, for every commit was synchronised before it was acknowledged.
 */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { openStore } from '../../server/stores/index.ts';
import { openReading } from '../../server/stores/open-reading.ts';
import { integrityOf } from '../../server/stores/snapshot.ts';
import { contentsOf } from './contents.ts';
import type { Kept } from './lines.ts';

/** SQLite, "WAL-mode File Format": sizes of the headers, and places in the first page of the `-shm` file [octets]. */
const LOG_HEADER_OCTETS = 32;
const FRAME_HEADER_OCTETS = 24;
const PAGE_SIZE_AT = 8;
const LAST_FRAME_AT = 16;
const BACKFILLED_AT = 96;

/** A database with its log as a kill has left them. */
export interface CutSite {
  readonly folder: string;
  /** Octets of the log that no longer count are before this one: they are in the database. */
  readonly fromOctet: number;
  readonly toOctet: number;
}

/** Copies a database with its log; null: the log holds nothing that is not in the database. */
export function cutSite(folder: string, copy: string): CutSite | null {
  const [log, shared] = ['slatch.db-wal', 'slatch.db-shm'].map((name) => join(folder, name));
  if (log === undefined || shared === undefined || !existsSync(log) || !existsSync(shared)) return null;
  if (statSync(log).size < LOG_HEADER_OCTETS) return null;
  rmSync(copy, { recursive: true, force: true });
  mkdirSync(copy, { recursive: true });
  for (const name of ['slatch.db', 'slatch.db-wal']) copyFileSync(join(folder, name), join(copy, name));
  const index = readFileSync(shared);
  const frameOctets = FRAME_HEADER_OCTETS + readFileSync(log).readUInt32BE(PAGE_SIZE_AT);
  const octetOf = (frame: number): number => LOG_HEADER_OCTETS + frame * frameOctets;
  const [fromOctet, toOctet] = [octetOf(index.readUInt32LE(BACKFILLED_AT)), octetOf(index.readUInt32LE(LAST_FRAME_AT))];
  return toOctet > fromOctet ? { folder: copy, fromOctet, toOctet } : null;
}

export type CutKind = 'cut' | 'zeroed' | 'noise';
export const CUT_KINDS: readonly CutKind[] = ['cut', 'zeroed', 'noise'];

/**
 * Spoils the end of the log, opens the store, and asks that it is whole and holds a beginning of what was acknowledged.
 *
 * @param order what was acknowledged in the database, the oldest first
 * @returns how many of them were lost, and the faults
 */
export function tryCut(
  site: CutSite,
  order: readonly Kept[],
  { kind, draw }: { kind: CutKind; draw: () => number },
): { readonly lostCount: number; readonly faults: readonly string[] } {
  const folder = `${site.folder}-cut`;
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  for (const name of ['slatch.db', 'slatch.db-wal']) copyFileSync(join(site.folder, name), join(folder, name));
  spoil(join(folder, 'slatch.db-wal'), site, { kind, draw });
  const opened = openStore(folder);
  if (!opened.ok) return { lostCount: 0, faults: [`it cannot be opened: ${opened.problems[0].what}`] };
  const contents = contentsOf(opened.value);
  opened.value.close();
  const faults = [...openReading(join(folder, 'slatch.db'), integrityOf)];
  const isThere = order.map(({ key, mark }) => {
    const found = contents.get(key);
    return key.startsWith('view ') ? Number(found ?? 0) >= Number(mark) : found === mark;
  });
  const firstLost = isThere.indexOf(false);
  const lostCount = firstLost < 0 ? 0 : order.length - firstLost;
  if (firstLost >= 0 && isThere.slice(firstLost).includes(true))
    faults.push(`${order[firstLost]?.key ?? ''} is gone, and something later is there`);
  return { lostCount, faults };
}

function spoil(
  log: string,
  { fromOctet, toOctet }: CutSite,
  { kind, draw }: { kind: CutKind; draw: () => number },
): void {
  const at = fromOctet + Math.floor(draw() * (toOctet - fromOctet));
  if (kind === 'cut') return truncateSync(log, at);
  const octets = readFileSync(log);
  for (let index = at; index < octets.length; index++) octets[index] = kind === 'zeroed' ? 0 : Math.floor(draw() * 256);
  return writeFileSync(log, octets);
}

/** Of what was acknowledged, what lies in the database and stays there: forecasts may be removed again, and are files too. */
export const inDatabase = (kept: readonly Kept[]): readonly Kept[] =>
  kept.filter(({ key }) => !key.startsWith('forecast '));
