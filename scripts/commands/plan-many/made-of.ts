/** What a plan is made of, as hashes: equal ones give the same plan, octet for octet. */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { programPrint } from '../../../server/program-print.ts';

/** Settings of the command line that reach the plan; null: as the passage has it. */
export interface PlanSettings {
  readonly nowUtc: string | null;
  readonly untilUtc: string | null;
  readonly seed: string | null;
}

/** Everything that has a say in a plan. */
export interface MadeOf extends PlanSettings {
  readonly passageSha256: string | null;
  /** Forecasts and track, as the passage names them; null: the file cannot be read. */
  readonly files: readonly { readonly name: string; readonly sha256: string | null }[];
  /** Of Slatch's own lines, of the packages it uses, and of Node. */
  readonly programSha256: string;
}

/** Hashes of files, each read once in a run. */
export type HashOf = (file: string) => Promise<string | null>;

export function hashesOnce(): HashOf {
  const known = new Map<string, Promise<string | null>>();
  return (file) => {
    const path = resolve(file);
    const hash = known.get(path) ?? hashOfFile(path);
    known.set(path, hash);
    return hash;
  };
}

async function hashOfFile(path: string): Promise<string | null> {
  const hash = createHash('sha256');
  try {
    await pipeline(createReadStream(path), hash);
  } catch {
    return null;
  }
  return hash.digest('hex');
}

export const sha256 = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');

/**
 * What the plan of a passage file would be made of. A file that is missing or no JSON is none of this function's matter:
 * planning says what is wrong with it.
 *
 * @param settings of the command line
 * @param of.beganUtc the instant taken as *now* where neither command line nor passage fixes one
 */
export async function madeOf(
  file: string,
  settings: PlanSettings,
  of: { readonly hashOf: HashOf; readonly programSha256: string; readonly beganUtc: string },
): Promise<MadeOf> {
  const json = await jsonIn(file);
  const names = namedFiles(json);
  const [passageSha256, ...hashes] = await Promise.all(
    [file, ...names.map((name) => resolve(dirname(file), name))].map(of.hashOf),
  );
  return {
    ...settings,
    nowUtc: settings.nowUtc ?? (hasFixedClock(json) ? null : of.beganUtc),
    passageSha256: passageSha256 ?? null,
    files: names.map((name, i) => ({ name, sha256: hashes[i] ?? null })),
    programSha256: of.programSha256,
  };
}

type Keys = Readonly<Record<string, unknown>>;
const isKeys = (value: unknown): value is Keys => typeof value === 'object' && value !== null && !Array.isArray(value);

async function jsonIn(file: string): Promise<Keys> {
  try {
    const json: unknown = JSON.parse(await readFile(file, 'utf8'));
    return isKeys(json) ? json : {};
  } catch {
    return {};
  }
}

function namedFiles({ forecasts, track }: Keys): string[] {
  const named = Array.isArray(forecasts) ? (forecasts as readonly unknown[]) : [];
  const gpx = isKeys(track) ? [track['gpx']] : [];
  return [...named, ...gpx].filter((name) => typeof name === 'string');
}

const hasFixedClock = ({ clock }: Keys): boolean => isKeys(clock);

/** Changes with any line of the program, its packages and the version of Node. */
export async function programHash(): Promise<string> {
  const lock = await hashOfFile(resolve(import.meta.dirname, '../../../package-lock.json'));
  const command = await hashOfFile(resolve(import.meta.dirname, '../plan.ts'));
  return sha256([programPrint(), lock, command, process.version].join('\n'));
}
