/** Decoding beside the ecCodes C library, and beside the readers on npm that can read the same file. */
import { join } from 'node:path';
import { startAnchor } from '../../bench-grib/anchor.ts';
import { fileOf } from '../../bench-grib/make-files.ts';
import { measure } from '../../bench-grib/measure.ts';
import { installReaders, type NpmReader, tryReaders } from '../../bench-grib/npm-readers.ts';
import { type BenchCase, caseOfRounds, type Part, type PartOptions } from '../bench-case.ts';
import { GRIB_BENCH_CASES } from '../grib-cases.ts';
import { readerLines, type ReadFile } from '../reader-words.ts';

const GOLDEN = join(import.meta.dirname, '../../../tests/golden/grib');

interface Found {
  readonly cases: BenchCase[];
  readonly skipped: { name: string; why: string }[];
  readonly files: ReadFile[];
}

async function measureAll({ isQuick, scratch }: PartOptions, readers: readonly NpmReader[]): Promise<Found> {
  const found: Found = { cases: [], skipped: [], files: [] };
  const anchor = startAnchor(scratch);
  for (const { one } of GRIB_BENCH_CASES.filter((each) => each.isQuick || !isQuick)) {
    const file = fileOf(one, { given: GOLDEN, scratch });
    if ('missing' in file) {
      found.skipped.push({ name: one.title, why: file.missing });
      continue;
    }
    const measured = await measure(one, file.path, typeof anchor === 'string' ? null : anchor);
    const pairs = measured.rounds.map(({ oursMs, anchorMs }) => ({ ours: oursMs, reference: anchorMs }));
    // Fewer values decoded would be quicker.
    const why = typeof anchor === 'string' ? anchor : whyNotAlike(measured);
    if (why === null) found.cases.push(caseOfRounds(one.title, 'ms', pairs));
    else found.skipped.push({ name: one.title, why });
    const tried = one.isForReaders ? tryReaders(readers, file.path, scratch) : [];
    found.files.push({ title: one.title, oursPerS: measured.oursPerS, readers: tried });
    console.error(`  ${one.title}: ${(measured.oursPerS / 1e6).toPrecision(3)} million values a second`);
  }
  if (typeof anchor !== 'string') anchor.end();
  return found;
}

function whyNotAlike({ refusedCount, note, rounds }: Awaited<ReturnType<typeof measure>>): string | null {
  if (refusedCount > 0) return `${refusedCount} fields are refused`;
  if (note !== '') return note;
  return rounds.length === 0 ? 'the reference made no round' : null;
}

export const gribPart: Part = {
  caseNames: () => GRIB_BENCH_CASES.map(({ one }) => one.title),
  measure: async (options) => {
    const { readers, complaint } = options.isQuick ? { readers: [], complaint: null } : installReaders(options.scratch);
    const { cases, skipped, files } = await measureAll(options, readers);
    const notes = [
      'grib: the reference is the ecCodes C library, which lists and decodes the same file into one buffer',
    ];
    return {
      cases,
      skipped,
      notes: [...notes, ...(complaint === null ? [] : [complaint]), ...readerLines(files)],
      figures: files,
    };
  },
};
