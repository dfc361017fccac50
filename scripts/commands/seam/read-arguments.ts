import { okUnless, type Result } from '../../../lib/result/index.ts';
import {
  clothProblems,
  ownStitchRate,
  PATCH_OVERLAP_MM,
  seamFigureProblems,
  stitchRate,
  usualEdgeRowCount,
  USUAL_RHYTHM,
  USUAL_STITCH,
  type Patch,
  type SeamFigure,
  type SeamPlan,
} from '../../../lib/stock/index.ts';
import { takeApart, type TakenApart, WrongUse } from '../arguments.ts';

/** What the command is asked for. */
export interface SeamRequest {
  readonly plan: SeamPlan;
  readonly patch: Patch;
  /** Rows round the edge of each cloth of the patch. */
  readonly edgeRowCount: number;
  readonly isOwnRate: boolean;
  readonly asJson: boolean;
}

const M_PER_FT = 0.3048;
const DEFAULT_CLOTH = 'tough-laminate';

/** Figures not given; a slit is taken as 20 mm wide. The length is always given. */
const DEFAULTS = {
  lengthM: 0,
  rowCount: 1,
  ...USUAL_STITCH,
  sessionMin: USUAL_RHYTHM.sessionMin,
  pauseMin: USUAL_RHYTHM.pauseMin,
  restMin: USUAL_RHYTHM.restMin,
  tearWidthM: 0.02,
  overlapM: PATCH_OVERLAP_MM.light.leastMm / 1000,
  sideCount: 2,
  layersPerSideCount: 1,
};

/** Options with a number: the figure each gives, and how many of its units one of the option's makes. */
const NUMBERS = {
  'length-m': ['lengthM', 1],
  'length-ft': ['lengthM', M_PER_FT],
  rows: ['rowCount', 1],
  'pitch-mm': ['pitchMm', 1],
  'width-mm': ['widthMm', 1],
  'thickness-mm': ['thicknessMm', 1],
  'rate-m-per-h': ['likelyMPerH', 1],
  'tear-width-mm': ['tearWidthM', 0.001],
  'overlap-mm': ['overlapM', 0.001],
  sides: ['sideCount', 1],
  layers: ['layersPerSideCount', 1],
  'edge-rows': ['edgeRowCount', 1],
  'session-min': ['sessionMin', 1],
  'pause-min': ['pauseMin', 1],
  'stretch-h': ['stretchMin', 60],
  'rest-h': ['restMin', 60],
} as const satisfies Readonly<Record<string, readonly [SeamFigure, number]>>;

/** The request, or everything wrong with its figures; throws `WrongUse` for options that are none or contradict. */
export function readSeamRequest(args: readonly string[]): Result<SeamRequest> {
  const given = takeSeamArguments(args);
  const { figures, names } = numbersOf(given);
  const cloth = given.texts.get('cloth') ?? DEFAULT_CLOTH;
  const problems = [
    ...seamFigureProblems(figures, (figure) => names[figure] ?? figure),
    ...clothProblems(cloth, `--cloth ${cloth}`),
  ];
  return okUnless(problems, () => requestOf(given, figures, cloth));
}

function takeSeamArguments(args: readonly string[]): TakenApart {
  const numbers = Object.fromEntries(Object.keys(NUMBERS).map((name) => [name, 'text' as const]));
  const given = takeApart(args, { ...numbers, cloth: 'text', single: 'flag', 'pace-loss': 'flag', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length > 0) throw new WrongUse(`"${given.files.join(' ')}" belongs to no option.`);
  const [inM, inFt] = [given.texts.has('length-m'), given.texts.has('length-ft')];
  if (inM && inFt) throw new WrongUse('--length-m and --length-ft exclude each other.');
  if (!inM && !inFt) throw new WrongUse('neither --length-m nor --length-ft is given.');
  return given;
}

type Figures = Partial<Record<SeamFigure, number>>;

/** The figures given, text that is none as NaN, and the option each came from. */
function numbersOf(given: TakenApart): { figures: Figures; names: Partial<Record<SeamFigure, string>> } {
  const figures: Figures = {};
  const names: Partial<Record<SeamFigure, string>> = {};
  for (const [option, [figure, factor]] of Object.entries(NUMBERS)) {
    const text = given.texts.get(option);
    if (text === undefined) continue;
    figures[figure] = text.trim() === '' ? Number.NaN : Number(text) * factor;
    names[figure] = `--${option} ${text}`;
  }
  return { figures, names };
}

function requestOf(given: TakenApart, own: Figures, cloth: string): SeamRequest {
  const { lengthM, rowCount, pitchMm, widthMm, thicknessMm, ...rest } = { ...DEFAULTS, ...own };
  const { sessionMin, pauseMin, restMin, tearWidthM, overlapM, sideCount, layersPerSideCount } = rest;
  const hasStitch = [own.pitchMm, own.widthMm, own.thicknessMm].some((figure) => figure !== undefined);
  const patch = { tearLengthM: lengthM, tearWidthM, overlapM, sideCount, layersPerSideCount };
  return {
    plan: {
      seam: { lengthM, rowCount, cloth },
      rate: own.likelyMPerH === undefined ? stitchRate(cloth) : ownStitchRate(cloth, own.likelyMPerH),
      geometry: hasStitch ? { pitchMm, widthMm, thicknessMm } : null,
      strand: given.flags.has('single') ? 'single' : 'double',
      rhythm: { sessionMin, pauseMin, restMin, stretchMin: own.stretchMin ?? USUAL_RHYTHM.stretchMin },
      hasPaceLoss: given.flags.has('pace-loss'),
    },
    patch,
    edgeRowCount: own.edgeRowCount ?? usualEdgeRowCount(patch),
    isOwnRate: own.likelyMPerH !== undefined,
    asJson: given.flags.has('json'),
  };
}
