import { createHash } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { FetchTarget } from '../sources/plan-targets.ts';

const octets = z.int().min(0);
const stateSchema = z.object({
  ranges: z.array(z.object({ startOctet: octets, endOctet: octets.nullable() })),
  /** Messages that should be in these ranges; null: not known. */
  messageCount: octets.nullable(),
  /** Wanted, and not in the index. */
  missing: z.array(z.string()),
  validators: z
    .object({
      etag: z.string().nullable(),
      lastModified: z.string().nullable(),
      strong: z.string().nullable(),
      wholeOctets: octets.nullable(),
    })
    .nullable(),
  /** All of it has come and was found good; the file then holds GRIB, unpacked where it came packed. */
  isComplete: z.boolean(),
});

/** What is known of a file under way; its octets are in the file beside it. */
export type KeptState = z.output<typeof stateSchema>;

/** A file under way on disk: octets so far in `KEY.part`, what is known of it in `KEY.json`. */
export interface Kept {
  readonly partPath: string;
  readState(): Promise<KeptState | null>;
  writeState(state: KeptState): Promise<void>;
  gotOctets(): Promise<number>;
  /** Cuts it to so many octets. */
  cut(octetCount: number): Promise<void>;
  /** Forgets all of it. */
  drop(): Promise<void>;
}

/** Days after which what is left of a fetch is of no use: no source keeps its runs longer. */
const STALE_MS = 7 * 86_400_000;

/** The place of a target in the folder: the same for the same file and the same wish. */
export function keptIn(folder: string, target: FetchTarget): Kept {
  const key = createHash('sha256')
    .update(JSON.stringify([target.url, target.index]))
    .digest('hex')
    .slice(0, 40);
  const partPath = join(folder, `${key}.part`);
  const statePath = join(folder, `${key}.json`);
  return {
    partPath,
    readState: async () => {
      const text = await readFile(statePath, 'utf8').catch(() => null);
      if (text === null) return null;
      // A state half written by a power cut is no state.
      try {
        return stateSchema.parse(JSON.parse(text));
      } catch {
        return null;
      }
    },
    writeState: async (state) => {
      await writeFile(`${statePath}.new`, JSON.stringify(state));
      await rename(`${statePath}.new`, statePath);
    },
    gotOctets: async () => (await stat(partPath).catch(() => null))?.size ?? 0,
    cut: async (octetCount) => {
      const file = await open(partPath, 'a');
      try {
        await file.truncate(octetCount);
      } finally {
        await file.close();
      }
    },
    drop: async () => {
      await rm(statePath, { force: true });
      await rm(partPath, { force: true });
    },
  };
}

/** Makes the folder, and clears it of what is older than a week. */
export async function prepareKeepFolder(folder: string, nowEpochMs: number): Promise<void> {
  await mkdir(folder, { recursive: true });
  for (const name of await readdir(folder)) {
    if (!/^[0-9a-f]{40}\.(part|json|json\.new|lock)$/.test(name)) continue;
    const found = await stat(join(folder, name)).catch(() => null);
    if (found !== null && nowEpochMs - found.mtimeMs > STALE_MS) await rm(join(folder, name), { force: true });
  }
}

/** Locks this process holds. */
const held = new Set<string>();

/** Makes this the only fetch of a target; null when another has it. The lock of a process that is gone counts for nothing. */
export async function takeLock(kept: Kept): Promise<(() => Promise<void>) | null> {
  const path = kept.partPath.replace(/\.part$/, '.lock');
  if (held.has(path)) return null;
  held.add(path);
  const release = async (): Promise<void> => {
    held.delete(path);
    await rm(path, { force: true });
  };
  try {
    if (await isLocked(path)) {
      held.delete(path);
      return null;
    }
    await writeFile(path, String(process.pid), { flag: 'wx' });
    return release;
  } catch (error) {
    held.delete(path);
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return null;
    throw error;
  }
}

async function isLocked(path: string): Promise<boolean> {
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) return false;
  if (isAlive(Number(text))) return true;
  await rm(path, { force: true });
  return false;
}

function isAlive(pid: number): boolean {
  // A lock of this very process that it does not hold was left by one before it with the same number.
  if (!Number.isSafeInteger(pid) || pid < 1 || pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
