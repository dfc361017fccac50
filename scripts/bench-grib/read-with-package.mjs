/**
 * Reads a GRIB file with a package from npm and compares its values with expected ones; one process per file, so that a
 * package that hangs can be ended.
 *
 *     node read-with-package.mjs PACKAGE FOLDER_OF_PACKAGES TASK.json
 *
 * The task: `grib`, a path; `values`, a path of doubles, NaN is missing; `fields`, for each its message's start and length,
 * its number in the message, its count of points and where some of them lie. Prints one line of JSON:
 * `{ verdict: 'ok' | 'wrong' | 'refuses', detail, perS }`.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

/** Equal within this part of the field's range. */
const EQUAL_RANGE_RATIO = 1e-4;

const isMissing = (value) => value === null || value === undefined || Number.isNaN(value);

/** Values of all fields, in file order; a package that reads one message is given one. */
const READERS = {
  'grib-js': (library, bytes) => {
    let found = [];
    library.readData(bytes, (error, messages) => {
      if (error) throw error;
      found = messages;
    });
    return found.flatMap(({ fields }) => fields.map(({ data }) => ({ values: data })));
  },
  grib2class: (Library, bytes, fields) =>
    fields
      .filter(({ submessageNumber }) => submessageNumber === 1)
      .map(({ startIndex, lengthOctets }) => {
        const reader = new Library({ log: false });
        reader.parse(bytes.subarray(startIndex, startIndex + lengthOctets));
        return { values: reader.DataValues[0] };
      }),
  /** Gives values at places only; some places of each field are asked. */
  'grib2-simple': (library, bytes, fields) =>
    library(bytes).map(({ getValue }, i) => {
      const { places = [] } = fields[i] ?? {};
      return { values: places.map(({ lat, lon }) => getValue(lon, lat)), indices: places.map(({ index }) => index) };
    }),
};

function compare(found, fields, expected) {
  let start = 0;
  let [askedCount, wrongCount] = [0, 0];
  for (const [i, { pointCount }] of fields.entries()) {
    const wanted = expected.subarray(start, start + pointCount);
    start += pointCount;
    const { values, indices } = found[i] ?? { values: [] };
    if (indices === undefined && values?.length !== pointCount) {
      askedCount += pointCount;
      wrongCount += pointCount;
      continue;
    }
    const rangeRatio = EQUAL_RANGE_RATIO * rangeOf(wanted);
    for (let k = 0; k < values.length; k++) {
      const [ours, theirs] = [wanted[indices?.[k] ?? k], values[k]];
      askedCount += 1;
      if (isMissing(ours) !== isMissing(theirs) || Math.abs(ours - theirs) > rangeRatio) wrongCount += 1;
    }
  }
  return { askedCount, wrongCount };
}

function rangeOf(values) {
  let [least, most] = [Infinity, -Infinity];
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return Math.max(most - least, Math.abs(most) * 1e-6, 1e-12);
}

function read([name, folder, taskPath]) {
  const task = JSON.parse(readFileSync(taskPath, 'utf8'));
  const library = createRequire(join(resolve(folder), 'package.json'))(name);
  const bytes = readFileSync(task.grib);
  const octets = readFileSync(task.values);
  const expected = new Float64Array(octets.buffer.slice(octets.byteOffset, octets.byteOffset + octets.length));
  const startMs = performance.now();
  const found = READERS[name](library, bytes, task.fields);
  const tookS = (performance.now() - startMs) / 1000;
  const { askedCount, wrongCount } = compare(found, task.fields, expected);
  const readCount = found.reduce((sum, { values }) => sum + (values?.length ?? 0), 0);
  if (readCount === 0) return { verdict: 'refuses', detail: 'no values', perS: null };
  const detail = `${wrongCount} of ${askedCount} points wrong`;
  return { verdict: wrongCount === 0 && askedCount > 0 ? 'ok' : 'wrong', detail, perS: readCount / tookS };
}

/** Packages write to the console as they like; the answer is the last line. */
function answer(result) {
  process.stdout.write(`\n${JSON.stringify(result)}\n`);
}

try {
  answer(read(process.argv.slice(2)));
} catch (error) {
  answer({ verdict: 'refuses', detail: String(error).split('\n')[0], perS: null });
}
