/** What is wrong with a cut file although its shape is right; parts whose shape is wrong are passed over. */
import type { Problem } from '../../result/index.ts';
import { placeOf } from '../../shape/index.ts';
import { FINEST_PER_MM_COUNT } from './cut-group.ts';

type Raw = Readonly<Record<string, unknown>>;

const MOST_PIECES = 5000;
const MOST_BARS = 20_000;

const isRaw = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value);

const listOf = (file: unknown, key: 'pieces' | 'stock'): readonly unknown[] => {
  const list = isRaw(file) ? file[key] : null;
  return Array.isArray(list) ? list : [];
};

/** All of them, in the order of the file. */
export function cutProblems(file: unknown, where: string): readonly Problem[] {
  const at = (...path: readonly (string | number)[]): string => placeOf({ where, path });
  const kerf = isRaw(file) ? finenessProblems(file, ['kerfMm'], (key) => at(key)) : [];
  return [
    ...kerf,
    ...listOf(file, 'stock').flatMap((line, index) =>
      isRaw(line) ? finenessProblems(line, ['lengthMm', 'diameterMm'], (key) => at('stock', index, key)) : [],
    ),
    ...repeatedIds(listOf(file, 'stock'), (index) => at('stock', index, 'id'), 'bars'),
    ...listOf(file, 'pieces').flatMap((piece, index) =>
      isRaw(piece) ? pieceProblems(piece, (...path) => at('pieces', index, ...path)) : [],
    ),
    ...repeatedIds(listOf(file, 'pieces'), (index) => at('pieces', index, 'id'), 'pieces'),
    ...tooMany(listOf(file, 'stock'), MOST_BARS, at('stock'), 'bars'),
    ...tooMany(listOf(file, 'pieces'), MOST_PIECES, at('pieces'), 'pieces'),
  ];
}

type At = (...path: readonly (string | number)[]) => string;

function pieceProblems(piece: Raw, at: At): readonly Problem[] {
  const zones = Array.isArray(piece['noJoinZonesMm']) ? piece['noJoinZonesMm'] : [];
  return [
    ...finenessProblems(piece, ['lengthMm', 'diameterMm', 'overlapMm', 'endAllowanceMm', 'shortestPartMm'], (key) =>
      at(key),
    ),
    ...overlapGivenTwice(piece, at),
    ...zones.flatMap((zone, index) => zoneProblems(zone, piece['lengthMm'], at('noJoinZonesMm', index))),
  ];
}

function overlapGivenTwice(piece: Raw, at: At): readonly Problem[] {
  if (piece['overlapMm'] === undefined || piece['overlapRatio'] === undefined) return [];
  return [
    {
      code: 'cut.overlap-twice',
      where: at('overlapRatio'),
      what: 'The overlap is given both in millimetres and as a ratio to the diameter.',
      expected: 'overlapMm or overlapRatio, not both',
      remedy: 'Take one of them out.',
    },
  ];
}

function zoneProblems(zone: unknown, lengthMm: unknown, where: string): readonly Problem[] {
  const bounds: readonly unknown[] = Array.isArray(zone) ? zone : [];
  const [fromMm, toMm] = bounds;
  if (typeof fromMm !== 'number' || typeof toMm !== 'number' || bounds.length !== 2) return [];
  if (fromMm > toMm)
    return [
      {
        code: 'cut.zone-reversed',
        where,
        what: `The zone begins at ${fromMm} mm and ends before that, at ${toMm} mm.`,
        expected: '[from, to] with from not above to',
        remedy: `Write [${toMm}, ${fromMm}].`,
      },
    ];
  if (typeof lengthMm === 'number' && fromMm > lengthMm)
    return [
      {
        code: 'cut.zone-outside',
        where,
        what: `The zone begins at ${fromMm} mm, beyond the end of the piece at ${lengthMm} mm.`,
        expected: `a zone between 0 and ${lengthMm} mm, measured from the first end of the finished piece`,
        remedy: 'Measure it from the other end, or take it out.',
      },
    ];
  return [fromMm, toMm].flatMap((valueMm) => (isTooFine(valueMm) ? [tooFine(valueMm, where)] : []));
}

const isTooFine = (valueMm: number): boolean =>
  Math.abs(valueMm * FINEST_PER_MM_COUNT - Math.round(valueMm * FINEST_PER_MM_COUNT)) > 1e-6;

const tooFine = (valueMm: number, where: string): Problem => ({
  code: 'cut.too-fine',
  where,
  what: `${valueMm} mm is finer than a hundredth of a millimetre.`,
  expected: 'at most two decimals',
  remedy: `Write ${Math.round(valueMm * FINEST_PER_MM_COUNT) / FINEST_PER_MM_COUNT}.`,
});

const finenessProblems = (of: Raw, keys: readonly string[], at: (key: string) => string): readonly Problem[] =>
  keys.flatMap((key) => {
    const value = of[key];
    return typeof value === 'number' && isTooFine(value) ? [tooFine(value, at(key))] : [];
  });

function repeatedIds(list: readonly unknown[], at: (index: number) => string, word: string): readonly Problem[] {
  const first = new Map<unknown, number>();
  return list.flatMap((entry, index) => {
    const id = isRaw(entry) ? entry['id'] : undefined;
    if (typeof id !== 'string') return [];
    if (!first.has(id)) {
      first.set(id, index);
      return [];
    }
    return [
      {
        code: 'cut.id-twice',
        where: at(index),
        what: `There are two ${word} with the id "${id}".`,
        expected: 'a different id for each',
        remedy: 'Rename one of them, or give one entry a count.',
      },
    ];
  });
}

function tooMany(list: readonly unknown[], mostCount: number, where: string, word: string): readonly Problem[] {
  const count = list.reduce<number>((sum, entry) => {
    const own = isRaw(entry) ? entry['count'] : 1;
    return sum + (typeof own === 'number' && own > 0 ? own : 1);
  }, 0);
  if (count <= mostCount) return [];
  return [
    {
      code: 'cut.too-many',
      where,
      what: `There are ${count} ${word} in all.`,
      expected: `at most ${mostCount}`,
      remedy: 'Plan them in several files.',
    },
  ];
}
