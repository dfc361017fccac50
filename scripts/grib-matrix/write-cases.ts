/** Lets ecCodes write the messages of a row, all in one run of `grib_filter`. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { caseFile, filterRules } from './filter-rules.ts';
import type { MatrixCase } from './matrix-case.ts';

/** Octets of a message, or what the tool said when it would not write it. */
export type WrittenCase = Uint8Array | string;

const FILTER = 'grib_filter';

/** Folders: the tool's samples, and the one to write into. */
export interface MatrixFolders {
  readonly samples: string;
  readonly scratch: string;
}

/**
 * The messages in the order of the cases. The tool stops altogether at some values it cannot pack; the messages it has
 * not put on the disk by then are written again, one run each, so that one case does not take the others with it.
 */
export function writeCases(folders: MatrixFolders, cases: readonly MatrixCase[]): WrittenCase[] {
  const run = runFilter(folders, cases);
  if (run.status === 0) return cases.map((_, i) => writtenFile(folders, i + 1, run.stderr));
  return cases.map((one) => {
    const single = runFilter(folders, [one]);
    return single.status === 0 ? writtenFile(folders, 1, single.stderr) : firstLine(single.stderr);
  });
}

function runFilter(folders: MatrixFolders, cases: readonly MatrixCase[]): { status: number | null; stderr: string } {
  cases.forEach((_, i) => rmSync(join(folders.scratch, caseFile(i + 1)), { force: true }));
  writeFileSync(join(folders.scratch, 'rules'), filterRules(cases));
  const samples = cases.map(({ sample }) => readFileSync(join(folders.samples, sample)));
  writeFileSync(join(folders.scratch, 'samples.grib'), Buffer.concat(samples));
  return spawnSync(FILTER, ['rules', 'samples.grib'], { cwd: folders.scratch, encoding: 'utf8' });
}

function writtenFile(folders: MatrixFolders, messageNumber: number, complaint: string): WrittenCase {
  const path = join(folders.scratch, caseFile(messageNumber));
  const octets = existsSync(path) ? new Uint8Array(readFileSync(path)) : new Uint8Array(0);
  return octets.length > 0 ? octets : firstLine(complaint);
}

const firstLine = (text: string): string => text.trim().split('\n')[0] ?? 'nothing written';
