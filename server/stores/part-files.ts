/** Files that are written beside their place and renamed once they are whole. */
import { randomUUID } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, openSync, readdirSync, rmSync } from 'node:fs';
import { open, rm } from 'node:fs/promises';
import { join } from 'node:path';

/** Files this process is writing: not leftovers. */
const beingWritten = new Set<string>();

/** What SQLite writes beside a file bears its name. */
const BESIDE = '(?:-journal|-wal|-shm)?$';
const ANY_PART = new RegExp(`^(?:(\\d+)-)?[^/]*\\.part${BESIDE}`);
/** `<pid>-<uuid>.part` */
const OWN_PART = new RegExp(`^(\\d+)-[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\\.part${BESIDE}`);

/** A name for a file that is not whole yet; `work` renames it, else it is removed. */
export async function withPart<T>(folder: string, work: (part: string) => Promise<T>): Promise<T> {
  const part = beginPart(folder);
  try {
    return await work(part);
  } finally {
    await rm(part, { force: true });
    beingWritten.delete(part);
  }
}

/** The same at once. */
export function withPartSync<T>(folder: string, work: (part: string) => T): T {
  const part = beginPart(folder);
  try {
    return work(part);
  } finally {
    rmSync(part, { force: true });
    beingWritten.delete(part);
  }
}

function beginPart(folder: string): string {
  const part = join(folder, `${process.pid}-${randomUUID()}.part`);
  beingWritten.add(part);
  return part;
}

/** Makes a new name itself last; Windows has no such call and needs none. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

export function syncFolderSync(folder: string): void {
  if (process.platform === 'win32') return;
  syncFileSync(folder, 'r');
}

/** What was written to a file, by whomever, is on the disk when it returns. */
export function syncFileSync(path: string, flags: 'r' | 'r+' = 'r+'): void {
  const file = openSync(path, flags);
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** The `.part` files of a folder whose writer is gone; with `isOthersToo`, also those nobody of ours has named. */
export function leftParts(folder: string, isOthersToo = false): readonly string[] {
  if (!existsSync(folder)) return [];
  const names = readdirSync(folder).filter((name) => (isOthersToo ? ANY_PART : OWN_PART).test(name));
  return names
    .filter((name) => !isWriterAlive(name))
    .map((name) => join(folder, name))
    .filter((path) => !beingWritten.has(path.replace(new RegExp(BESIDE), '')));
}

/** Removes them. */
export function sweepParts(folder: string, isOthersToo = false): void {
  for (const path of leftParts(folder, isOthersToo)) rmSync(path, { force: true });
}

function isWriterAlive(name: string): boolean {
  const pid = Number(ANY_PART.exec(name)?.[1] ?? '0');
  return pid !== 0 && pid !== process.pid && isAlive(pid);
}

/** Whether a process runs, whoever's it is. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
