/** The covering design of the matrix: every packing at every width, the other choices turning with different periods. */
import { type ValueSpread, SPREADS } from './field-values.ts';
import { gridRows } from './grid-rows.ts';
import { WINDOW_COLUMNS, WINDOW_POINTS, windowHeader, WINDOWS } from './grid-windows.ts';
import type { MatrixCase, MatrixRow, PackingChoice } from './matrix-case.ts';
import { PACKINGS } from './packings.ts';
import { PRODUCTS } from './products.ts';

/** Scanning modes whose rows lie one after another. */
const PLAIN_MODES = [0, 64, 128, 192];
const SAMPLES = { 1: 'regular_ll_sfc_grib1.tmpl', 2: 'regular_ll_sfc_grib2.tmpl' } as const;
/** Equal neighbours: with noise at every point an image is longer than the room ecCodes gives it, and it gives up. */
const PATCHES: ValueSpread = { least: -20, span: 40, patchCount: 4 };

/** Widths `from` to `to`, in bits. */
const widths = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

const turn = <T>(list: readonly T[], index: number): T => {
  const found = list[index % list.length];
  if (found === undefined) throw new Error('nothing to choose from');
  return found;
};

/** What a case chooses; all else follows from its place in the row. */
interface Choice {
  readonly edition?: 1 | 2;
  readonly packing: PackingChoice;
  readonly widthBits: number | null;
  readonly decimalScaleFactor?: number;
  readonly spread?: ValueSpread;
  readonly scanningMode?: number;
  readonly isMasked: boolean;
  /** Turns window, scanning mode, product and spread. */
  readonly index: number;
}

function caseOf(choice: Choice): MatrixCase {
  const { edition = 2, index, isMasked } = choice;
  const shift = isMasked ? 1 : 0;
  const scanningMode = choice.scanningMode ?? turn(PLAIN_MODES, index + shift);
  const product = edition === 2 ? turn(PRODUCTS, index + 5 * shift) : null;
  return {
    sample: SAMPLES[edition],
    header: [...windowHeader(turn(WINDOWS, index + 2 * shift), scanningMode), ...(product?.header ?? [])],
    pointCount: WINDOW_POINTS,
    ni: WINDOW_COLUMNS,
    isMasked,
    spread: choice.spread ?? turn(SPREADS, index),
    seed: 1000 + 2 * index + shift,
    bitsPerValue: choice.widthBits,
    decimalScaleFactor: choice.decimalScaleFactor ?? 0,
    packing: choice.packing,
    asked: {
      templateNumber: choice.packing.templateNumber,
      bitsPerValue: choice.packing.hasOwnWidths === true ? null : choice.widthBits,
      scanningMode,
      ...(product === null ? {} : { productTemplate: product.productTemplate }),
    },
  };
}

/** Each choice without and with a mask. */
const row = (name: string, choices: readonly Omit<Choice, 'isMasked' | 'index'>[]): MatrixRow => ({
  name,
  cases: choices.flatMap((choice, index) => [false, true].map((isMasked) => caseOf({ ...choice, isMasked, index }))),
});

/** One packing at many widths. */
const packingRow = (
  name: string,
  packing: PackingChoice,
  choice: { widthsBits: readonly number[]; edition?: 1; spread?: ValueSpread },
): MatrixRow => {
  const { widthsBits, ...rest } = choice;
  return row(
    name,
    widthsBits.map((widthBits) => ({ ...rest, packing, widthBits })),
  );
};

/**
 * Entropy coder: flags of the standard × block size × reference interval × width, each pair somewhere. Left out is what
 * ecCodes writes wrongly: 17 to 24 bits without the flag for three octets, and the flag for padded intervals (it leaves the
 * padding away, and cannot read the file itself).
 */
function ccsdsOptionRow(): MatrixRow {
  const [blocks, intervals] = [
    [8, 16, 32, 64],
    [1, 7, 128, 1024, 4096],
  ];
  const turned = (flags: readonly number[], widthsBits: readonly number[], count: number) =>
    Array.from({ length: count }, (_, i) => ({
      packing: PACKINGS.ccsdsWith({
        flags: turn(flags, i),
        blockCount: turn(blocks, i + Math.floor(i / 4)),
        intervalCount: turn(intervals, i),
      }),
      widthBits: turn(widthsBits, i),
    }));
  return row('5.42 flags, block sizes, intervals', [
    ...turned([14, 6, 12, 4], [4, 9, 12, 16, 2, 32, 28], 28),
    ...turned([14, 6], [17, 20, 24], 12),
    ...turned([30], [1, 2, 3, 4], 4),
  ]);
}

function scanningRow(edition: 1 | 2, modes: readonly number[], name: string): MatrixRow {
  const packings = edition === 1 ? [PACKINGS.simple1] : [PACKINGS.simple, PACKINGS.ccsds];
  const choices = packings.flatMap((packing) =>
    modes.map((scanningMode) => ({ edition, packing, widthBits: 12, scanningMode })),
  );
  return row(name, choices);
}

function decimalRow(): MatrixRow {
  const packings = [PACKINGS.simple, PACKINGS.ccsds, PACKINGS.png, PACKINGS.jpeg, PACKINGS.complex];
  const choices = packings.flatMap((packing) =>
    [-1, 1, 3].map((decimalScaleFactor) => ({ packing, widthBits: null, decimalScaleFactor, spread: PATCHES })),
  );
  return row('decimal scale factors -1, 1, 3', choices);
}

/** All rows, in the order of the table. */
export function matrixRows(): readonly MatrixRow[] {
  const wideModes = PLAIN_MODES.map((mode) => mode + 32);
  return [
    packingRow('5.0 simple', PACKINGS.simple, { widthsBits: widths(1, 32) }),
    // From 17 bits on ecCodes writes complex packing wrongly.
    packingRow('5.2 complex', PACKINGS.complex, { widthsBits: widths(1, 16) }),
    packingRow('5.3 order 0', PACKINGS.differenced, { widthsBits: widths(1, 16) }),
    row('5.4 IEEE, 32 and 64 bits', [
      ...SPREADS.map((spread) => ({ packing: PACKINGS.ieee32, widthBits: null, spread })),
      ...SPREADS.map((spread) => ({ packing: PACKINGS.ieee64, widthBits: null, spread })),
    ]),
    // At 28 bits ecCodes loses some of them, at 32 it stops.
    packingRow('5.40 JPEG 2000', PACKINGS.jpeg, { widthsBits: widths(1, 25) }),
    packingRow('5.40 JPEG 2000, lossy', PACKINGS.jpegLossy, { widthsBits: [8, 12, 16] }),
    packingRow('5.41 PNG', PACKINGS.png, { widthsBits: widths(1, 32), spread: PATCHES }),
    packingRow('5.42 CCSDS', PACKINGS.ccsds, { widthsBits: widths(1, 32) }),
    ccsdsOptionRow(),
    packingRow('5.61 simple after logarithm', PACKINGS.logarithm, { widthsBits: [8, 16] }),
    packingRow('5.50002 second order', PACKINGS.secondOrder2, { widthsBits: [1, 5, 8, 11, 12, 16, 20, 24] }),
    decimalRow(),
    packingRow('edition 1 simple', PACKINGS.simple1, { edition: 1, widthsBits: widths(1, 32) }),
    ...PACKINGS.secondOrder1.map((packing) =>
      packingRow(`edition 1 ${packing.packingType.replace('grid_', '')}`, packing, {
        edition: 1,
        widthsBits: [1, 2, 5, 8, 10, 12, 15, 16, 20, 24],
      }),
    ),
    packingRow('edition 1 IEEE', PACKINGS.ieee1, { edition: 1, widthsBits: [12] }),
    scanningRow(2, [...PLAIN_MODES, ...wideModes], 'scanning modes, edition 2'),
    scanningRow(
      2,
      [...PLAIN_MODES, ...wideModes].map((mode) => mode + 16),
      'scanning modes, alternating rows',
    ),
    scanningRow(1, [...PLAIN_MODES, ...wideModes], 'scanning modes, edition 1'),
    ...gridRows(),
  ];
}
