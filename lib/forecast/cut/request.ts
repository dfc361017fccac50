/** What is to be cut out of forecast files, and what cannot be asked for. */
import type { Position } from '../../geo/index.ts';
import { didYouMean, type Problem } from '../../result/index.ts';
import { formatUtc } from '../../time/index.ts';
import type { Box } from '../box.ts';
import { QUANTITIES, type QuantityId } from '../quantity.ts';
import { LONGEST_STEP_H } from '../time-bracket.ts';

/** A place, and when the boat is there. */
export interface TimedPlace extends Position {
  readonly epochMs: number;
}

/** The area kept: a box, all within a distance of a way, or at each hour all within a distance of where the boat is then. */
export type CutArea =
  | { readonly kind: 'box'; readonly box: Box }
  | { readonly kind: 'corridor'; readonly places: readonly Position[]; readonly marginNm: number }
  /** Places in order of time. */
  | { readonly kind: 'moving'; readonly places: readonly TimedPlace[]; readonly marginNm: number };

/** Which runs of an ensemble are kept; the control run always is. */
export type CutMembers = 'all' | 'control' | { readonly everyCount: number };

/** Greatest errors of rounding: `precision.table.ts`. */
export type CutPrecision = 'fine' | 'coarse';

export interface CutRequest {
  readonly area: CutArea;
  /** What is needed to answer for every instant from here … */
  readonly fromEpochMs?: number;
  /** … to here; both default to all there is. */
  readonly toEpochMs?: number;
  /** Steps are at most so far apart, if the files' own are no longer; 1 to 12; default all steps. */
  readonly everyH?: number;
  /** Ids of `QUANTITIES`; default all that are held. */
  readonly quantities?: readonly string[];
  readonly members?: CutMembers;
  /** Keeps every n-th row and column: values between them change, by an amount that is not stated. Default 1. */
  readonly everyPointCount?: number;
  /** Default fine. */
  readonly precision?: CutPrecision;
  /** Puts grids other than regular ones of latitude and longitude on such a grid, which changes values. Default false. */
  readonly resample?: boolean;
  /** `shared` (default): fields share headers in few messages; `separate`: a message for each field. */
  readonly layout?: 'shared' | 'separate';
  /** Grid points outside a corridor: missing where that is smaller (default), or kept as they are. */
  readonly outside?: 'smallest' | 'kept';
  /**
   * Writes of a moving area at each step only the rows and columns needed then. Often shorter; but what reads the cut
   * finds another grid at each step, and takes the largest for the area it covers. Default false.
   */
  readonly trimEachStep?: boolean;
  /** Grid cells kept around what interpolation needs; default 1. */
  readonly spareCellCount?: number;
}

const MOST_MARGIN_NM = 600;

/** Every reason why the request cannot be followed, whatever the files hold. */
export function requestProblems(request: CutRequest): Problem[] {
  const { fromEpochMs = -Infinity, toEpochMs = Infinity, everyH, everyPointCount = 1, spareCellCount = 1 } = request;
  const members = typeof request.members === 'object' ? request.members.everyCount : 1;
  return [
    ...areaProblems(request.area),
    ...(toEpochMs < fromEpochMs
      ? [
          wrong(
            'time',
            `It ends at ${formatUtc(toEpochMs)}, before it begins.`,
            `an end after ${formatUtc(fromEpochMs)}`,
          ),
        ]
      : []),
    ...(everyH === undefined || (everyH > 0 && everyH <= LONGEST_STEP_H)
      ? []
      : [
          wrong(
            'steps',
            `One step in ${everyH} h is asked for.`,
            `up to ${LONGEST_STEP_H} h, which is all that is bridged`,
          ),
        ]),
    ...wholeProblems('members', members, 1),
    ...wholeProblems('points', everyPointCount, 1),
    ...wholeProblems('spare cells', spareCellCount, 0),
    ...(request.quantities ?? []).flatMap(quantityProblems),
  ];
}

/** The quantities asked for, in their own order; of a request without problems. */
export function askedQuantities({ quantities }: CutRequest): readonly QuantityId[] {
  return QUANTITIES.map(({ id }) => id).filter((id) => quantities === undefined || quantities.includes(id));
}

const wrong = (where: string, what: string, expected: string): Problem => ({
  code: 'cut.request-wrong',
  where: `cut, ${where}`,
  what,
  expected,
  remedy: 'Correct it; nothing was cut.',
});

const wholeProblems = (where: string, value: number, leastCount: number): Problem[] =>
  Number.isInteger(value) && value >= leastCount
    ? []
    : [wrong(where, `${value} cannot be counted by.`, `a whole number from ${leastCount} on`)];

/** Longitudes may be given in any turn of the circle. */
const isOnGlobe = ({ lat, lon }: Position): boolean => Math.abs(lat) <= 90 && Math.abs(lon) <= 540;

function areaProblems(area: CutArea): Problem[] {
  if (area.kind === 'box') {
    const { southWest, northEast } = area.box;
    const isBox = isOnGlobe(southWest) && isOnGlobe(northEast) && southWest.lat <= northEast.lat;
    const edges = `${southWest.lat}, ${southWest.lon}, ${northEast.lat}, ${northEast.lon}`;
    return isBox
      ? []
      : [wrong('box', `${edges} is no box.`, 'south, west, north, east in signed degrees, south first')];
  }
  const { places, marginNm } = area;
  const hasMargin = marginNm >= 0 && marginNm <= MOST_MARGIN_NM;
  return [
    ...(places.length > 0 && places.every(isOnGlobe) ? [] : [wrong('way', 'It has no places.', 'at least one place')]),
    ...(hasMargin ? [] : [wrong('margin', `${marginNm} nm is asked for.`, `0 to ${MOST_MARGIN_NM} nm`)]),
    ...(area.kind === 'moving' && !ascends(area.places)
      ? [wrong('way', 'It goes back in time.', 'places in order of time')]
      : []),
  ];
}

const ascends = (places: readonly TimedPlace[]): boolean =>
  places.every(({ epochMs }, i) => i === 0 || epochMs >= (places[i - 1]?.epochMs ?? Infinity));

function quantityProblems(name: string): Problem[] {
  const known: readonly string[] = QUANTITIES.map(({ id }) => id);
  if (known.includes(name)) return [];
  const near = didYouMean(name, known);
  return [
    {
      code: 'cut.quantity-unknown',
      where: 'cut, quantities',
      what: `There is no quantity "${name}".`,
      expected: `one of ${known.join(', ')}`,
      remedy: near === null ? 'Name one of them.' : `Did you mean "${near}"?`,
    },
  ];
}
