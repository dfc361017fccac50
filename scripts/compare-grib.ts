/**
 * Compares every field of a GRIB file, or of every GRIB file in a folder tree, with what ecCodes reads from it.
 *
 *     npm run compare-grib -- FOLDER_OR_FILE
 *
 * Exit code 0: no field differs; 1: some differ; 2: wrong use, or ecCodes is not installed.
 */
import { existsSync, readFileSync } from 'node:fs';
import { basename, relative } from 'node:path';
import { type GribField, scanGrib } from '../lib/grib/index.ts';
import { EQUAL_POSITION_DEG, EQUAL_RELATIVE, readReferenceOf } from './compare-grib/compare-field.ts';
import { eccodesVersion, type ReadReference, type ReferenceField, withReference } from './compare-grib/eccodes.ts';
import { compareField, type Outcome } from './compare-grib/outcome.ts';
import { withPlainProduct } from './compare-grib/plain-product.ts';
import { gribFilesIn } from './grib-files.ts';

function compareFile(path: string, read: ReadReference): Outcome[] {
  const bytes = new Uint8Array(readFileSync(path));
  const outcomes: Outcome[] = [];
  let messageOffset = -1;
  let reference: ReferenceField[] | string = [];
  for (const field of scanGrib(bytes, path).fields) {
    if (field.messageOffsetOctet !== messageOffset) {
      messageOffset = field.messageOffsetOctet;
      const message = bytes.subarray(messageOffset, messageOffset + field.messageLengthOctets);
      reference = field.obstacles.packing === null ? readInSomeWay(field, message, read) : 'not asked';
    }
    const theirs = typeof reference === 'string' ? reference : reference[field.submessageNumber - 1];
    outcomes.push(compareField(bytes, field, theirs ?? 'the reference found fewer fields'));
  }
  return outcomes;
}

/** Where the reference does not know the product template, it is asked for values and places under a plain one. */
function readInSomeWay(field: GribField, message: Uint8Array, read: ReadReference): ReferenceField[] | string {
  const found = readReferenceOf(field, message, read);
  if (typeof found !== 'string' || field.edition === 1 || !found.includes('productDefinition')) return found;
  return readReferenceOf(field, withPlainProduct(message), read);
}

function report(name: string, outcomes: readonly Outcome[]): void {
  const count = (kind: Outcome['kind']): number => outcomes.filter((one) => one.kind === kind).length;
  const largest = (figure: (one: Outcome) => number): string => Math.max(0, ...outcomes.map(figure)).toPrecision(2);
  console.log(
    `${name}: ${count('equal')} equal, ${count('differing')} differing, ${count('unsupported')} unsupported, ` +
      `${count('known-defect')} known ecCodes defect, ${count('reference-failed')} unreadable to ecCodes; largest difference ` +
      `${largest((one) => one.largestAbsolute)} absolute, ${largest((one) => one.largestRelative)} relative, ` +
      `${largest((one) => one.largestPositionDeg)}° in place`,
  );
  const reasons = new Map<string, number>();
  for (const { kind, reason } of outcomes) {
    if (reason !== 'all') reasons.set(`${kind}: ${reason}`, (reasons.get(`${kind}: ${reason}`) ?? 0) + 1);
  }
  for (const [reason, times] of reasons) console.log(`    ${times} × ${reason}`);
}

function main(folder: string | undefined): number {
  if (folder === undefined || !existsSync(folder)) {
    console.error(folder === undefined ? 'Which folder or file?' : `There is no ${folder}.`);
    console.error('Example: npm run compare-grib -- tests/golden/grib');
    return 2;
  }
  const version = eccodesVersion();
  if (version === null) {
    console.error('ecCodes is not installed (no codes_info found), so there is nothing to compare with.');
    return 2;
  }
  console.log(`Reference: ecCodes ${version}, grib_get_data -m NaN -F %.17g, one message at a time;`);
  console.log(`grids this program does not place: grib_filter, [values%.17g], without positions.`);
  console.log(`Equal: missing at the same points, and values within ${EQUAL_RELATIVE} relative (last places of a`);
  console.log(`double); on grids this program places also every position within ${EQUAL_POSITION_DEG}°.\n`);
  const all = withReference((read) =>
    gribFilesIn(folder).flatMap((path) => {
      const outcomes = compareFile(path, read);
      report(relative(folder, path) || basename(path), outcomes);
      return outcomes;
    }),
  );
  console.log('');
  report('Total', all);
  return all.some(({ kind }) => kind === 'differing') ? 1 : 0;
}

process.exitCode = main(process.argv[2]);
