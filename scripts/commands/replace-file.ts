import { randomUUID } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { Problem } from '../../lib/result/index.ts';

/**
 * Writes a file whole: first beside its place, on the disk, then renamed.
 *
 * @returns `file.not-written`, and what stood there is as it was; nothing when it is there
 */
export async function replaceFile(target: string, content: string | Uint8Array): Promise<Problem[]> {
  const part = join(dirname(target), `.${basename(target)}.${process.pid}-${randomUUID()}.part`);
  try {
    const file = await open(part, 'wx');
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(part, target);
    return [];
  } catch (error) {
    await rm(part, { force: true }).catch(() => undefined);
    return [notWritten(target, error)];
  }
}

const notWritten = (target: string, error: unknown): Problem => ({
  code: 'file.not-written',
  where: target,
  what: `The file cannot be written: ${error instanceof Error ? error.message : String(error)}.`,
  expected: 'a file in a folder that exists and may be written',
  remedy: 'Name another file; what stood there is as it was.',
});
