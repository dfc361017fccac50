/** What can be wrong with the figures of a seam and its patch as somebody states them. */
import { didYouMean, type Problem } from '../../result/index.ts';
import { STITCH_RATES } from './stitch-rates.table.ts';

interface Range {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  /** The least itself is refused. */
  readonly isAbove?: boolean;
  readonly isWhole?: boolean;
}

/** What each figure may be: wide enough for any sail, narrow enough to catch a wrong unit. */
const RANGES = {
  lengthM: { least: 0, most: 100, unit: 'm', isAbove: true },
  rowCount: { least: 1, most: 10, unit: 'rows', isWhole: true },
  pitchMm: { least: 1, most: 50, unit: 'mm' },
  widthMm: { least: 0, most: 100, unit: 'mm' },
  thicknessMm: { least: 0, most: 30, unit: 'mm' },
  likelyMPerH: { least: 0, most: 50, unit: 'm an hour', isAbove: true },
  tearWidthM: { least: 0, most: 5, unit: 'm' },
  overlapM: { least: 0, most: 1, unit: 'm' },
  sideCount: { least: 1, most: 2, unit: 'sides', isWhole: true },
  layersPerSideCount: { least: 1, most: 4, unit: 'layers', isWhole: true },
  edgeRowCount: { least: 0, most: 10, unit: 'rows', isWhole: true },
  sessionMin: { least: 5, most: 240, unit: 'min' },
  pauseMin: { least: 0, most: 1440, unit: 'min' },
  stretchMin: { least: 10, most: 2880, unit: 'min' },
  restMin: { least: 0, most: 2880, unit: 'min' },
} as const satisfies Record<string, Range>;

/** Figures that can be checked, by the names they have in `Seam`, `StitchGeometry`, `Patch` and `SewingRhythm`. */
export type SeamFigure = keyof typeof RANGES;

/** Whether a name is that of a figure. */
const isSeamFigure = (name: string): name is SeamFigure => name in RANGES;

/**
 * Everything wrong with the figures given, those left out being right: `stock.seam-figure`.
 *
 * @param nameOf how the input at hand calls a figure: a key, an option
 */
export const seamFigureProblems = (
  figures: Readonly<Partial<Record<SeamFigure, number>>>,
  nameOf: (figure: SeamFigure) => string,
): readonly Problem[] =>
  Object.entries(figures).flatMap(([name, value]) => {
    if (!isSeamFigure(name) || isWithin(value, RANGES[name])) return [];
    return [outOfRange(value, RANGES[name], nameOf(name))];
  });

/** `stock.cloth-unknown`, with the nearest cloth there is, or nothing. */
export function clothProblems(cloth: string, where: string): readonly Problem[] {
  const known = STITCH_RATES.map((rate) => rate.cloth);
  if (known.includes(cloth)) return [];
  const near = didYouMean(cloth, known);
  return [
    {
      code: 'stock.cloth-unknown',
      where,
      what: `There is no stitch rate for a cloth "${cloth}".`,
      expected: `one of ${known.join(', ')}`,
      remedy:
        near === null ? 'Choose the nearest of these, and give your own rate with it.' : `Did you mean "${near}"?`,
    },
  ];
}

const isWithin = (value: number, { least, most, isAbove, isWhole }: Range): boolean =>
  value <= most && (isAbove === true ? value > least : value >= least) && (isWhole !== true || Number.isInteger(value));

const outOfRange = (value: number, range: Range, where: string): Problem => ({
  code: 'stock.seam-figure',
  where,
  what: Number.isNaN(value) ? 'It is no number.' : `It is ${Math.round(value * 1e6) / 1e6} ${range.unit}.`,
  expected: rangeText(range),
  remedy: 'Measure again, look at the unit, and correct it.',
});

function rangeText({ least, most, unit, isAbove, isWhole }: Range): string {
  const kind = isWhole === true ? 'a whole number' : 'a number';
  return isAbove === true
    ? `${kind} above ${least} ${unit}, ${most} at most`
    : `${kind} from ${least} to ${most} ${unit}`;
}
