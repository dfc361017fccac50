import { open, readFile, type FileHandle } from 'node:fs/promises';
import path from 'node:path';

/** Where and how a line is added. */
export interface LineToAppend {
  readonly file: string;
  /** The line without its line end. */
  readonly line: string;
  /** Octets to keep: what follows them was torn and never acknowledged. */
  readonly wholeOctetCount: number;
  readonly isEndMissing: boolean;
}

const encoder = new TextEncoder();

/**
 * Adds a line at the end of a file and returns its number, from 1, once it is on the disk: file and, where it is new,
 * folder are synchronised. The number is counted in the file as it then is, since another may have written meanwhile.
 */
export async function appendLine({ file, line, wholeOctetCount, isEndMissing }: LineToAppend): Promise<number> {
  const handle = await open(file, 'a');
  try {
    const { size } = await handle.stat();
    if (size > wholeOctetCount) await handle.truncate(wholeOctetCount);
    await writeWhole(handle, encoder.encode(`${isEndMissing ? '\n' : ''}${line}\n`));
    await handle.sync();
  } finally {
    await handle.close();
  }
  if (wholeOctetCount === 0) await syncFolder(path.dirname(file));
  return lineNumber(await readFile(file, 'utf8'), line);
}

async function writeWhole(handle: FileHandle, octets: Uint8Array): Promise<void> {
  let written = 0;
  while (written < octets.length) written += (await handle.write(octets.subarray(written))).bytesWritten;
}

/** A new name is kept only with its folder; some systems do not let a folder be opened. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

const lineNumber = (text: string, line: string): number => text.split('\n').lastIndexOf(line) + 1;
