/** From what is said of a damage to a tear on the sail. */
import { failed, ok, type Result } from '../result/index.ts';
import { placeOf } from '../shape/index.ts';
import { bandOf, insideBand } from './band.ts';
import { countedStrip } from './counted-strip.ts';
import { loadDirectionAt } from './load-line.ts';
import { centreOf, measuredPoint } from './measured-point.ts';
import {
  angleBetweenLinesDeg,
  between,
  directionAtRad,
  distanceM,
  leftOf,
  minus,
  plus,
  times,
  unitOf,
  type PointM,
} from './point.ts';
import type { SegmentM } from './point.ts';
import { hullOf, sharedPart, stretchInside } from './polygon.ts';
import type { DamageFile } from './sail-file.ts';
import type { SailShape } from './sail-shape.ts';
import type { DamageAt, Strip } from './strip.ts';

/** A tear as it lies on the drawn sail. */
export interface Tear {
  readonly id: string;
  readonly said: DamageFile;
  readonly lengthM: number;
  /** From end to end; shorter than `lengthM` only where the sail drawn is a typical one and too small for it. */
  readonly line: SegmentM;
  /** The place it was laid by. */
  readonly middle: PointM;
  readonly isOnSeam: boolean;
  /** Where along the panel was said. */
  readonly isPlaceSaid: boolean;
  /** Its direction was said; if not, across the load is taken where it fits: the worse. */
  readonly isDirectionSaid: boolean;
  /** Angle to the load line [deg], 0 … 90. */
  readonly loadAngleDeg: number;
  /** How far its middle was moved from the place counted to lie on the sail [m]. */
  readonly movedM: number;
  /** Outline of where the whole tear may lie, the place being counted and not measured. */
  readonly mayLie: readonly PointM[];
  /** Places its middle may have. */
  readonly mayBeMiddle: readonly PointM[];
}

/** The tear, or every problem of its place. */
export function placeTear(shape: SailShape, damage: DamageFile, place: DamageAt): Result<Tear> {
  const strip = stripOf(shape, damage, place);
  if (!strip.ok) return strip;
  const point = measuredPoint(shape, { strip: strip.value, damage, place });
  if (!point.ok) return point;
  const counted = point.value ?? centreOf(strip.value);
  const mayBeMiddle = middlesOf(strip.value, point.value);
  const fits = fitsOf(shape, { damage, strip: strip.value, middles: [counted, ...mayBeMiddle] });
  const longest = fits.reduce((best, one) => (one.stretchM > best.stretchM ? one : best));
  const fitting = fits.find(({ stretchM }) => stretchM >= damage.lengthM);
  if (fitting === undefined && shape.outline.scale !== 'typical')
    return failed({
      code: 'damage.longer-than-sail',
      where: placeOf({ where: place.where, path: [...place.path, 'lengthM'] }),
      what: `A tear of ${damage.lengthM} m does not fit on the sail there.`,
      expected: `at most ${Number(longest.stretchM.toFixed(2))} m in this place and direction`,
      remedy: 'Correct the length, the direction or the place, or the sides of the sail.',
    });
  const { line, middle, toward } = fitting ?? longest;
  return ok({
    id: damage.id ?? `tear-${Number(place.path.at(-1) ?? 0) + 1}`,
    said: damage,
    lengthM: damage.lengthM,
    line,
    middle,
    isOnSeam: strip.value.isSeam,
    isPlaceSaid: point.value !== null,
    isDirectionSaid: isDirectionSaid(damage),
    loadAngleDeg: angleBetweenLinesDeg(toward, loadDirectionAt(shape.outline, middle)),
    movedM: distanceM(between(line.from, line.to, 0.5), counted),
    mayBeMiddle,
    mayLie: sharedPart(hullOf(mayBeMiddle.flatMap((at) => moved(line, minus(at, middle)))), shape.outline.edge),
  });
}

const isDirectionSaid = (damage: DamageFile): boolean =>
  damage.direction !== undefined || damage.angleFromFootDeg !== undefined;

/**
 * Ways to lay the tear on the sail: as said and in the middle of where it may lie first. A direction that is not said is
 * across the load, the worse, and along it only where a tear as long does not fit across.
 */
function fitsOf(
  shape: SailShape,
  { damage, strip, middles }: { damage: DamageFile; strip: Strip; middles: readonly PointM[] },
): readonly Fit[] {
  const ways = isDirectionSaid(damage) ? [damage.direction] : (['across-the-load', 'along-the-load'] as const);
  return ways.flatMap((direction) =>
    middles.map((middle) => {
      const toward = directionOf(shape, { damage, direction, middle, strip });
      return fit(shape, { middle, toward, lengthM: damage.lengthM });
    }),
  );
}

const moved = ({ from, to }: SegmentM, by: PointM): readonly PointM[] => [plus(from, by), plus(to, by)];

/** The strip a damage is said to lie in, or `damage.panel`, `.seam`, `.battens`, `.contradiction`. */
function stripOf(shape: SailShape, damage: DamageFile, place: DamageAt): Result<Strip> {
  const strip = damage.counted === undefined ? null : countedStrip(shape, damage.counted, place);
  const band = damage.betweenBattens === undefined ? null : bandOf(shape, damage.betweenBattens, place);
  const problems = [strip, band].flatMap((read) => (read === null || read.ok ? [] : read.problems));
  const [first, ...rest] = problems;
  if (first !== undefined) return failed(first, ...rest);
  if (strip?.ok === true && band?.ok === true)
    return insideBand(shape, { strip: strip.value, band: band.value }, { damage, place });
  if (strip?.ok === true) return strip;
  if (band?.ok === true) return ok(band.value.strip);
  throw new Error('a damage without a place');
}

/** Where the middle may be: across the strip from a measured point, else anywhere in the strip. */
function middlesOf({ region, across, looseM, isSeam, middle }: Strip, point: PointM | null): readonly PointM[] {
  const sides = (at: PointM): readonly PointM[] => {
    const inside = isSeam ? null : stretchInside(region, { at, toward: across });
    const [fromM, toM] = [Math.max(-looseM, inside?.fromM ?? -looseM), Math.min(looseM, inside?.toM ?? looseM)];
    return [plus(at, times(across, fromM)), plus(at, times(across, toM))];
  };
  if (point !== null) return sides(point);
  return isSeam ? [...sides(middle.from), ...sides(middle.to)] : region;
}

interface Way {
  readonly damage: DamageFile;
  readonly direction: DamageFile['direction'];
  readonly middle: PointM;
  readonly strip: Strip;
}

function directionOf(shape: SailShape, { damage, direction, middle, strip }: Way): PointM {
  const foot = unitOf(minus(shape.outline.clew, shape.outline.tack));
  if (damage.angleFromFootDeg !== undefined) {
    const turned = directionAtRad((damage.angleFromFootDeg * Math.PI) / 180);
    return plus(times(foot, turned.xM), times(leftOf(foot), turned.yM));
  }
  const load = loadDirectionAt(shape.outline, middle);
  const seam = unitOf(minus(strip.middle.to, strip.middle.from));
  const directions = {
    'across-the-load': leftOf(load),
    'along-the-load': load,
    'along-the-seam': seam,
    'across-the-seam': leftOf(seam),
    'fore-and-aft': foot,
    'up-and-down': leftOf(foot),
  };
  return directions[direction ?? 'across-the-load'];
}

interface Fit {
  readonly middle: PointM;
  readonly toward: PointM;
  readonly line: SegmentM;
  /** How long a tear fits there. */
  readonly stretchM: number;
}

/** The tear around its middle, moved along itself until it lies on the sail; no longer than the sail is there. */
function fit(shape: SailShape, { middle, toward, lengthM }: Pick<Fit, 'middle' | 'toward'> & { lengthM: number }): Fit {
  const inside = stretchInside(shape.outline.edge, { at: middle, toward }) ?? { fromM: 0, toM: 0 };
  const stretchM = inside.toM - inside.fromM;
  const drawnM = Math.min(lengthM, stretchM);
  const startM = Math.min(Math.max(-drawnM / 2, inside.fromM), inside.toM - drawnM);
  const line = { from: plus(middle, times(toward, startM)), to: plus(middle, times(toward, startM + drawnM)) };
  return { middle, toward, line, stretchM };
}
