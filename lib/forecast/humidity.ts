/** Relative humidity where the files hold the dew point instead. */
import type { Problem } from '../result/index.ts';
import type { Frame, Series } from './frame.ts';
import type { MatchedField } from './match-field.ts';
import { quantityOf } from './quantity.ts';

/**
 * Relative humidity [%], 0 to 100, from air temperature and dew point [°C]: water vapour at saturation at the one over that
 * at the other, by the Magnus form 6.105 hPa · exp(17.27 t / (237.7 + t)) over water, whose first factor cancels out.
 *
 * Dew points above the air, which packing makes, are 100 %. Either missing: NaN.
 */
export function humidityPercent({ airC, dewPointC }: { airC: number; dewPointC: number }): number {
  return Math.min(100, 100 * Math.exp(magnusExponent(dewPointC) - magnusExponent(airC)));
}

const magnusExponent = (temperatureC: number): number => (17.27 * temperatureC) / (237.7 + temperatureC);

/**
 * All fields but the dew points that have no air temperature of the same member on the same grid at the same time: they
 * must not stand in the way of humidity that is there. With a sentence about what was left out.
 */
export function usableDewPoints(matched: readonly MatchedField[]): {
  readonly matched: readonly MatchedField[];
  readonly notes: readonly string[];
} {
  if (!matched.some(isDewPoint)) return { matched, notes: [] };
  const aired = new Set(matched.filter(({ row }) => row.quantity === 'air').map(partnerKey));
  const usable = matched.filter((found) => !isDewPoint(found) || aired.has(partnerKey(found)));
  const lostCount = matched.length - usable.length;
  const note = `${name()}: ${lostCount} fields of dew point are left out, because the air temperature at 2 m is not there with them.`;
  return { matched: usable, notes: lostCount === 0 ? [] : [note] };
}

const name = (): string => quantityOf('humidity').name;

export const isDewPoint = ({ row }: MatchedField): boolean => row.part === 'dewPoint';

const partnerKey = ({ field, memberId, endEpochMs }: MatchedField): string =>
  `${memberId} ${endEpochMs} ${JSON.stringify(field.grid)}`;

/** Frames of humidity from frames of dew point, whose values are overwritten, and the air of the same member. */
export function humidityFrames(
  dewPoints: readonly Frame[],
  air: Series | undefined,
): { readonly frames: readonly Frame[]; readonly problems: readonly Problem[] } {
  const airAt = new Map((air?.frames ?? []).map((frame) => [frame.endEpochMs, frame]));
  const frames = dewPoints.flatMap((dewPoint) => {
    const partner = airAt.get(dewPoint.endEpochMs);
    return partner?.grid === dewPoint.grid ? [humidityFrame(dewPoint, partner)] : [];
  });
  const lostCount = dewPoints.length - frames.length;
  return { frames, problems: lostCount === 0 ? [] : [airMissing(lostCount)] };
}

function humidityFrame(dewPoint: Frame, air: Frame): Frame {
  const { first } = dewPoint;
  for (let i = 0; i < first.length; i++)
    first[i] = humidityPercent({ airC: air.first[i] ?? Number.NaN, dewPointC: first[i] ?? Number.NaN });
  return dewPoint;
}

function airMissing(lostCount: number): Problem {
  return {
    code: 'forecast.part-missing',
    where: `forecast, ${name()}`,
    what: `For ${lostCount} hours of dew point the air temperature at 2 m is not held on the same grid.`,
    expected: 'dew point and air temperature at 2 m on one grid, or relative humidity',
    remedy: 'These hours are left out. Ask for the forecast again with relative humidity at 2 m.',
  };
}
