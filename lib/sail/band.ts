/** The cloth between two neighbouring battens, or between the last one and head or foot. */
import { failed, ok, type Result } from '../result/index.ts';
import { placeOf } from '../shape/index.ts';
import { heightAboveFootM, type SailOutline } from './outline.ts';
import { between, distanceM, leftOf, minus, plus, times, unitOf, type PointM } from './point.ts';
import { areaOf, leftPart, rightPart, segmentInside, type LineM } from './polygon.ts';
import type { DamageFile } from './sail-file.ts';
import type { SailShape } from './sail-shape.ts';
import type { DamageAt, Strip } from './strip.ts';

/** Less than this is no cloth, but rounding. */
const LEAST_AREA_M2 = 1e-6;

/** A strip between two heights above the foot; the highest has no upper one. */
export interface Band {
  readonly strip: Strip;
  readonly lowM: number;
  readonly highM: number | null;
}

type Levels = NonNullable<DamageFile['betweenBattens']>;

/** The band, or `damage.battens`. */
export function bandOf(shape: SailShape, levels: Levels, place: DamageAt): Result<Band> {
  const battenCount = shape.battens.length;
  const beyond = levels.filter((level) => typeof level === 'number' && level > battenCount);
  const numbers = levels.map((level) => (level === 'head' ? 0 : level === 'foot' ? battenCount + 1 : level));
  const upperNumber = Math.min(...numbers);
  const refuse = (what: string): Result<Band> =>
    failed({
      code: 'damage.battens',
      where: placeOf({ where: place.where, path: [...place.path, 'betweenBattens'] }),
      what,
      expected:
        battenCount === 0
          ? 'a sail with battens'
          : `two neighbours among head, batten 1 to ${battenCount} counted from the head, and foot`,
      remedy: 'Count from the head, or correct sail.battens.count.',
    });
  if (beyond.length > 0)
    return refuse(`There is no batten ${beyond.join(' and no batten ')}: there are ${battenCount}.`);
  if (Math.max(...numbers) - upperNumber !== 1) return refuse(`${levels.join(' and ')} are no neighbours.`);
  return ok(bandBelow(shape, upperNumber));
}

/** The band under a batten counted from the head; 0 is the head itself. */
function bandBelow(shape: SailShape, battenNumber: number): Band {
  const { outline, battens } = shape;
  const [top, bottom] = [battens[battenNumber - 1], battens[battenNumber]];
  const [lowM, highM] = [bottom?.heightM ?? 0, top?.heightM ?? null];
  const [low, high] = [bottom?.across.to ?? outline.clew, top?.across.to ?? outline.head];
  const middle = segmentInside(outline.edge, { at: between(low, high, 0.5), toward: alongFoot(outline) });
  if (middle === null) throw new Error('a band passes by its sail');
  return {
    strip: {
      panel: null,
      isSeam: false,
      middle,
      region: betweenHeights(outline, outline.edge, { lowM, highM }),
      across: unitOf(minus(outline.head, outline.clew)),
      looseM: distanceM(low, high) / 2,
    },
    lowM,
    highM,
  };
}

const alongFoot = ({ tack, clew }: SailOutline): PointM => unitOf(minus(clew, tack));

/** What of a region lies between two heights above the foot. */
function betweenHeights(
  outline: SailOutline,
  region: readonly PointM[],
  { lowM, highM }: Pick<Band, 'lowM' | 'highM'>,
): readonly PointM[] {
  const toward = alongFoot(outline);
  const level = (heightM: number): LineM => ({ at: plus(outline.tack, times(leftOf(toward), heightM)), toward });
  const above = leftPart(region, level(lowM));
  return highM === null ? above : rightPart(above, level(highM));
}

/**
 * A counted strip cut down to what lies between the battens, or `damage.contradiction`. Equal widths and equal spacing
 * are guesses: half a panel of disagreement is none.
 */
export function insideBand(
  shape: SailShape,
  { strip, band }: { strip: Strip; band: Band },
  { damage, place }: { damage: DamageFile; place: DamageAt },
): Result<Strip> {
  const { lowM, highM } = band;
  const shared = betweenHeights(shape.outline, strip.region, band);
  if (areaOf(shared) > LEAST_AREA_M2) return ok({ ...strip, region: shared });
  const wider = { lowM: lowM - strip.looseM, highM: highM === null ? null : highM + strip.looseM };
  if (areaOf(betweenHeights(shape.outline, strip.region, wider)) > LEAST_AREA_M2) return ok(strip);
  const at = (key: string): string => placeOf({ where: place.where, path: [...place.path, key] });
  const start = shape.sail.cut === 'radial' ? 'tack' : 'clew';
  return failed({
    code: 'damage.contradiction',
    where: `${at('counted')} and ${at('betweenBattens')}`,
    what: `Panel ${damage.counted?.panel} from the ${damage.counted?.from ?? start} lies ${battensAround(shape, strip)}, not between ${damage.betweenBattens?.join(' and ')}.`,
    expected: `panel ${panelsIn(shape, band).join(', ')} counted from the ${start}, or the battens named here`,
    remedy: 'Count both again: batten 1 is the top one.',
  });
}

/** The battens nearest above and below a strip, in words. */
function battensAround(shape: SailShape, { region }: Strip): string {
  const heightsM = region.map((point) => heightAboveFootM(shape.outline, point));
  const above = (heightM: number): number => shape.battens.filter((batten) => batten.heightM > heightM).length;
  const topNumber = above(Math.max(...heightsM) - 1e-6);
  const bottomNumber = above(Math.min(...heightsM) + 1e-6) + 1;
  const top = topNumber === 0 ? 'the head' : `batten ${topNumber}`;
  return `between ${top} and ${bottomNumber > shape.battens.length ? 'the foot' : `batten ${bottomNumber}`}`;
}

const panelsIn = (shape: SailShape, band: Band): readonly number[] =>
  shape.panels
    .filter(({ region }) => areaOf(betweenHeights(shape.outline, region, band)) > LEAST_AREA_M2)
    .map(({ panelNumber }) => panelNumber);
