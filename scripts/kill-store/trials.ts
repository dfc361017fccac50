/** One kill of each kind, and what is asked of the store after it. */
import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { backUpStore, checkStore, openStore } from '../../server/stores/index.ts';
import { verify, withArchive } from '../../server/stores/archive/read-archive.ts';
import { versionOnDisk } from '../../server/stores/disk-version.ts';
import { openDatabase } from '../../server/stores/database.ts';
import { migrations } from '../../server/stores/migrations/index.ts';
import { isCopyBefore } from '../../server/stores/snapshot.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { valueOf } from './contents.ts';
import { killOne } from './kill.ts';
import { Acknowledged, type Line } from './lines.ts';
import { makeOldStore, NEWEST_VERSION, OLD_VERSIONS, rowsOf } from './old-stores.ts';
import { CUT_KINDS, cutSite, inDatabase, tryCut } from './power-cuts.ts';
import { faultsOf } from './verify.ts';

export type TrialKind = 'writing' | 'opening' | 'migrating' | 'backing up' | 'restoring';
export const TRIAL_KINDS: readonly TrialKind[] = ['writing', 'opening', 'migrating', 'backing up', 'restoring'];

/** What one kill comes to. */
export interface Trial {
  readonly kind: TrialKind;
  readonly afterMs: number;
  /** Whether the worker was still at work. */
  readonly isKilled: boolean;
  readonly acknowledgedCount: number;
  /** Spoiled logs that were tried, and acknowledged writes they cost. */
  readonly cutCount: number;
  readonly lostToCutsCount: number;
  readonly faults: readonly string[];
}

/** Latest kill of each kind [ms] after the line that says it has begun. */
const MOST_MS: Readonly<Record<TrialKind, number>> = {
  writing: 350,
  opening: 60,
  migrating: 120,
  'backing up': 250,
  restoring: 250,
};

/** Latest kill after the copy of an older store is there [ms]. */
const CHANGES_MS = 40;

/** A scratch folder with one store that is written to, kill after kill. */
export interface Ground {
  readonly scratch: string;
  readonly store: string;
  readonly acknowledged: Acknowledged;
}

export const newGround = (scratch: string): Ground => {
  mkdirSync(scratch, { recursive: true });
  return { scratch, store: join(scratch, 'store'), acknowledged: new Acknowledged() };
};

export interface TrialOf {
  readonly kind: TrialKind;
  readonly seed: number;
  /** Spoiled logs to try after a kill while writing. */
  readonly cutCount: number;
}

/** Kills a worker once, and holds the store against what it had said. */
export async function tryKill(ground: Ground, of: TrialOf): Promise<Trial> {
  const draw = uniformDraws(of.seed);
  const afterMs = Math.floor(draw() * MOST_MS[of.kind]);
  const none = { kind: of.kind, afterMs, isKilled: false, acknowledgedCount: 0, cutCount: 0, lostToCutsCount: 0 };
  try {
    return { ...none, ...(await TRIALS[of.kind](ground, { ...of, draw, afterMs })) };
  } catch (error) {
    // A store that throws is a fault like any other; where it was must be told.
    return { ...none, faults: [error instanceof Error ? (error.stack ?? error.message) : String(error)] };
  }
}

interface Drawn extends TrialOf {
  readonly draw: () => number;
  readonly afterMs: number;
}

type Tried = Omit<Trial, 'kind' | 'afterMs' | 'cutCount' | 'lostToCutsCount'> & Partial<Trial>;
const TRIALS: Readonly<Record<TrialKind, (ground: Ground, drawn: Drawn) => Promise<Tried>>> = {
  writing: tryWriting,
  opening: tryOpening,
  migrating: tryMigrating,
  'backing up': tryBackingUp,
  restoring: tryRestoring,
};

const keptCount = (lines: readonly Line[]): number => lines.filter(({ say }) => say === 'kept').length;

async function tryWriting({ store, scratch, acknowledged }: Ground, drawn: Drawn): Promise<Tried> {
  const { seed, afterMs, draw } = drawn;
  const { lines, isKilled } = await killOne({
    mode: 'write',
    folder: store,
    seed,
    from: { line: '"say":"kept"' },
    afterMs,
  });
  acknowledged.take(lines);
  const site = drawn.cutCount > 0 ? cutSite(store, join(scratch, 'site')) : null;
  const order = inDatabase(acknowledged.kept());
  const faults = [...(await faultsOf(store, acknowledged))];
  let lostToCutsCount = 0;
  const cutCount = site === null ? 0 : drawn.cutCount;
  const kinds =
    site === null ? [] : Array.from({ length: cutCount }, (_, index) => CUT_KINDS[index % CUT_KINDS.length]);
  for (const kind of kinds) {
    if (site === null || kind === undefined) continue;
    const cut = tryCut(site, order, { kind, draw });
    lostToCutsCount += cut.lostCount;
    faults.push(...cut.faults.map((fault) => `after a power cut (${kind}): ${fault}`));
  }
  return { isKilled, acknowledgedCount: keptCount(lines), cutCount, lostToCutsCount, faults };
}

async function tryOpening({ store, acknowledged }: Ground, { seed, afterMs }: Drawn): Promise<Tried> {
  const { lines, isKilled } = await killOne({
    mode: 'write',
    folder: store,
    seed,
    from: { line: '"say":"opening"' },
    afterMs,
  });
  acknowledged.take(lines);
  return { isKilled, acknowledgedCount: keptCount(lines), faults: await faultsOf(store, acknowledged) };
}

/** A store of an earlier version, large enough that copying and changing it take their time. */
async function tryMigrating({ scratch }: Ground, { seed, afterMs, draw }: Drawn): Promise<Tried> {
  const folder = join(scratch, 'old');
  rmSync(folder, { recursive: true, force: true });
  const version = OLD_VERSIONS[Math.floor(draw() * OLD_VERSIONS.length)] ?? 1;
  makeOldStore(folder, version, 3000);
  const before = rowsAt(folder, version);
  // Half of them when the copy is there and the changes begin, which are soon done.
  const timing =
    draw() < 0.5
      ? { from: { line: '"say":"opening"' }, afterMs }
      : { from: { file: 'slatch-before' }, afterMs: Math.floor(draw() * CHANGES_MS) };
  const { isKilled } = await killOne({ mode: 'open', folder, seed, ...timing });
  const faults: string[] = [];
  const found = versionOnDisk(join(folder, 'slatch.db'));
  if (found !== version && found !== NEWEST_VERSION) faults.push(`version ${found}, between ${version} and the newest`);
  const opened = openStore(folder);
  if (!opened.ok)
    return { isKilled, acknowledgedCount: 0, faults: [`it cannot be opened: ${opened.problems[0].what}`] };
  opened.value.close();
  const copies = readdirSync(folder).filter(isCopyBefore);
  if (copies.length === 0) faults.push('it was brought up to date without a copy');
  for (const copy of copies)
    if (!isSame(rowsOfFile(join(folder, copy), version), before)) faults.push(`${copy} is not what was there before`);
  if (!isSame(rowsOfFile(join(folder, 'slatch.db'), NEWEST_VERSION, before), before))
    faults.push('rows of the older store are not as they were');
  const report = valueOf(await checkStore(folder));
  faults.push(...report.faults.map(({ code, what }) => `${code}: ${what}`));
  return { isKilled, acknowledgedCount: 0, faults };
}

type Rows = ReturnType<typeof rowsOf>;

const rowsAt = (folder: string, version: number): Rows => rowsOfFile(join(folder, 'slatch.db'), version);

function rowsOfFile(path: string, version: number, like?: Rows): Rows {
  const connection = valueOf(openDatabase(path, migrations.slice(0, version)));
  try {
    return rowsOf(connection, like);
  } finally {
    connection.close();
  }
}

const isSame = (one: Rows, other: Rows): boolean => JSON.stringify([...one]) === JSON.stringify([...other]);

async function tryBackingUp({ store, scratch, acknowledged }: Ground, { seed, afterMs }: Drawn): Promise<Tried> {
  const otherFolder = join(scratch, 'backups');
  rmSync(otherFolder, { recursive: true, force: true });
  const from = { line: '"what":"backup"' };
  const { lines, isKilled } = await killOne({ mode: 'backup', folder: store, seed, otherFolder, from, afterMs });
  acknowledged.take(lines);
  const faults = [...(await faultsOf(store, acknowledged))];
  const files = readdirSync(otherFolder).filter((name) => name.endsWith('.tar'));
  for (const name of files)
    // oxlint-disable-next-line no-await-in-loop
    faults.push(...(await archiveFaults(join(otherFolder, name))));
  for (const line of lines)
    if (line.say === 'made' && !existsSync(line.path)) faults.push(`${basename(line.path)} was said to be there`);
  return { isKilled, acknowledgedCount: keptCount(lines), faults };
}

async function archiveFaults(file: string): Promise<readonly string[]> {
  const looked = await withArchive(file, 'store', (archive, handle) => verify({ archive, handle, where: file }));
  return looked.ok ? [] : looked.problems.map(({ where, what }) => `${where}: ${what}`);
}

async function tryRestoring({ store, scratch }: Ground, { seed, afterMs }: Drawn): Promise<Tried> {
  const [backup, target] = [join(scratch, 'to-restore.tar'), join(scratch, 'restored', 'store')];
  rmSync(dirname(target), { recursive: true, force: true });
  mkdirSync(dirname(target));
  valueOf(openStore(store)).close();
  const archive = { file: backup, isReplacing: true };
  valueOf(await backUpStore({ folder: store, target: archive, program: '0', atEpochMs: 0 }));
  const whole = await restoredFaults(dirname(target), store);
  const from = { line: '"what":"restore"' };
  const { lines, isKilled } = await killOne({
    mode: 'restore',
    folder: backup,
    seed,
    otherFolder: target,
    from,
    afterMs,
  });
  const faults = [...whole, ...(await restoredFaults(dirname(target), store))];
  if (
    lines.some(({ say }) => say === 'made') &&
    readdirSync(dirname(target)).every((name) => name.includes('.unpacking-'))
  )
    faults.push('a store that was restored is not there');
  return { isKilled, acknowledgedCount: 0, faults };
}

/** Every folder that is no longer being unpacked is a whole store, with the rows of the one that was backed up. */
async function restoredFaults(folder: string, original: string): Promise<readonly string[]> {
  const wanted = valueOf(await checkStore(original)).rowCounts;
  const faults: string[] = [];
  for (const name of readdirSync(folder)) {
    if (name.includes('.unpacking-')) continue;
    // oxlint-disable-next-line no-await-in-loop
    const report = await checkStore(join(folder, name));
    if (!report.ok) faults.push(`${name}: ${report.problems[0].what}`);
    else if (JSON.stringify(report.value.rowCounts) !== JSON.stringify(wanted)) faults.push(`${name}: other rows`);
    else faults.push(...report.value.faults.map(({ code, what }) => `${name}: ${code}: ${what}`));
  }
  return faults;
}
