/**
 * The oracle matrix: ecCodes writes several hundred small messages, every packing at every width it can write among them,
 * and each is read by this program and by ecCodes and compared, values and positions.
 *
 *     npm run grib-matrix
 *
 * Exit code 0: no field differs; 1: some differ; 2: ecCodes is not installed.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { EQUAL_POSITION_DEG, EQUAL_RELATIVE } from './compare-grib/compare-field.ts';
import { eccodesVersion, type ReadReference, withReference } from './compare-grib/eccodes.ts';
import { compareMessages, type MatrixMessage, type MatrixOutcome } from './grib-matrix/compare-row.ts';
import type { MatrixRow } from './grib-matrix/matrix-case.ts';
import { differencedMessages } from './grib-matrix/own-messages.ts';
import { matrixRows } from './grib-matrix/rows.ts';
import { formatHeading, formatReasons, formatRow } from './grib-matrix/table.ts';
import { type MatrixFolders, writeCases } from './grib-matrix/write-cases.ts';

/** Folder of ecCodes' samples, or null when the tools are missing. */
function samplesFolder(): string | null {
  const run = spawnSync('codes_info', ['-s'], { encoding: 'utf8' });
  return run.status === 0 ? run.stdout.trim() : null;
}

function compareRow(row: MatrixRow, folders: MatrixFolders, read: ReadReference): MatrixOutcome[] {
  const written = writeCases(folders, row.cases);
  const messages: MatrixMessage[] = [];
  const refused: MatrixOutcome[] = [];
  for (const [i, octets] of written.entries()) {
    if (typeof octets !== 'string') messages.push({ octets, asked: row.cases[i]?.asked ?? {} });
    else {
      const reason = `not written: ${octets}`;
      refused.push({ kind: 'not-as-asked', reason, largestAbsolute: 0, largestRelative: 0, largestPositionDeg: 0 });
    }
  }
  return [...compareMessages(messages, { scratch: folders.scratch, read }), ...refused];
}

function report(name: string, outcomes: readonly MatrixOutcome[]): readonly MatrixOutcome[] {
  console.log(formatRow(name, outcomes));
  for (const line of formatReasons(outcomes)) console.log(line);
  return outcomes;
}

function compareAll(folders: MatrixFolders, read: ReadReference): MatrixOutcome[] {
  const own = [...differencedMessages()].flatMap(([name, messages]) =>
    report(
      `5.3 ${name.split(', ').at(-1)}, written here`,
      compareMessages(messages, { scratch: folders.scratch, read }),
    ),
  );
  return [...own, ...matrixRows().flatMap((row) => report(row.name, compareRow(row, folders, read)))];
}

function main(): number {
  const [version, samples] = [eccodesVersion(), samplesFolder()];
  if (version === null || samples === null) {
    console.error('ecCodes is not installed (no codes_info found), so there is nothing to compare with.');
    return 2;
  }
  console.log(`Written and read back by ecCodes ${version}. Equal: missing at the same points, values within`);
  console.log(`${EQUAL_RELATIVE} relative, places within ${EQUAL_POSITION_DEG}°.\n`);
  console.log(formatHeading());
  const scratch = mkdtempSync(join(tmpdir(), 'grib-matrix-'));
  try {
    const all = withReference((read) => compareAll({ samples, scratch }, read));
    console.log(formatRow('total', all));
    return all.some(({ kind }) => kind === 'differing') ? 1 : 0;
  } finally {
    rmSync(scratch, { recursive: true });
  }
}

process.exitCode = main();
