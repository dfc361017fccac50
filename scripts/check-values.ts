/**
 * Checks a file of published values against the library.
 *
 * node --import tsx scripts/check-values.ts FILE
 *
 * FILE is JSON, `{ "items": [{ id, topic, inputs, expected, tolerance }] }`. Exit code 0: all known topics agree;
 * 1: a value differs or the file cannot be read; 2: wrong use.
 */
import { readFile } from 'node:fs/promises';
import { checkDocument, formatReport } from './check-values/registry.ts';

const [file, ...more] = process.argv.slice(2);

if (file === undefined || more.length > 0) {
  process.stderr.write('Usage: node --import tsx scripts/check-values.ts FILE\n');
  process.exitCode = 2;
} else {
  try {
    const report = checkDocument(JSON.parse(await readFile(file, 'utf8')));
    process.stdout.write(`${formatReport(report)}\n`);
    if (report.failures.length > 0) process.exitCode = 1;
  } catch (error) {
    process.stderr.write(`${file}: ${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 1;
  }
}
