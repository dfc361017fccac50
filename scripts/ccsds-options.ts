/**
 * Which options of the CCSDS coding the fields of GRIB files use, by file.
 *
 *     node --import tsx scripts/ccsds-options.ts FOLDER_OR_FILE
 *
 * Fields are decoded twice, by the decoder of the library and by a plain one. Exit code 0: both agree on all samples; 1: they
 * differ somewhere; 2: wrong use.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { readFileOptions } from './ccsds-options/read-file.ts';

function gribFilesIn(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(grib[12]?|grb2?|bin)$/i.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .toSorted();
}

function main(path: string | undefined): number {
  if (path === undefined) {
    console.error('Which file or folder? Example: node --import tsx scripts/ccsds-options.ts tests/golden/grib/files');
    return 2;
  }
  let differingCount = 0;
  for (const file of gribFilesIn(path)) {
    const found = readFileOptions(new Uint8Array(readFileSync(file)), file);
    if (found.fieldCount === 0) continue;
    const options = [...found.options].toSorted(([one], [other]) => one.localeCompare(other, 'en', { numeric: true }));
    console.log(`${file}: ${found.fieldCount} fields, ${found.sampleCount} samples, ${found.codings.join(' and ')}`);
    for (const [option, times] of options) console.log(`    ${times} × ${option}`);
    for (const problem of found.problems) console.log(`    ${problem}`);
    differingCount += found.problems.length;
  }
  return differingCount === 0 ? 0 : 1;
}

process.exitCode = main(process.argv[2]);
