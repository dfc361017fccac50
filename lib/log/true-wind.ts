import type { Boat } from '../boat/index.ts';
import { trueWind, windHeightRatio } from '../weather/index.ts';
import { wrap180Deg, wrap360Deg } from '../units/index.ts';
import type { ObservationFile } from './entry.ts';

/** Wind as it was observed, brought to what a forecast gives: true, over the ground, 10 m above the water. */
export interface ObservedWind {
  readonly windKn: number;
  /** null: not observed, or calm. */
  readonly windFromDegTrue: number | null;
  /** null: not observed. */
  readonly gustKn: number | null;
  /** Reckoned from apparent wind, heading and boat speed: `TRUE_WIND_LEAVES_OUT` holds. */
  readonly isFromApparent: boolean;
}

/** To be said beside a wind reckoned from the apparent one. */
export const TRUE_WIND_LEAVES_OUT = 'from apparent wind, heading and boat speed; leeway and current are left out';

/** What is less than this is calm, and has no direction [kn]. */
const CALM_KN = 0.05;

/**
 * The true wind of an observation; null where it holds none.
 *
 * Apparent wind: true = apparent + boat's velocity, as vectors at the height of the instrument, the boat moving along its
 * heading at `boatSpeedKn`; leeway and current are left out. A gust is taken as the same instrument shows it, from the
 * same direction. Both are then brought from the instrument's height to 10 m by the power law over the sea
 * (sources.HSU_1994).
 *
 * @param boat its `instrumentHeightM` [m]
 */
export function trueWindOf(
  { wind, gustKn }: Pick<ObservationFile, 'wind' | 'gustKn'>,
  boat: Pick<Boat, 'instrumentHeightM'>,
): ObservedWind | null {
  if (wind === undefined) return null;
  // Below a metre the power law says nothing; such a height is a mistake of the file, not of the wind.
  const ratio = windHeightRatio({ heightM: Math.max(1, boat.instrumentHeightM) });
  if (wind.kind === 'true')
    return {
      windKn: wind.speedKn / ratio,
      windFromDegTrue: wind.fromDegTrue === undefined ? null : wrap360Deg(wind.fromDegTrue),
      gustKn: gustKn === undefined ? null : gustKn / ratio,
      isFromApparent: false,
    };
  const felt = (awsKn: number): ReturnType<typeof trueWind> =>
    trueWind({
      awsKn,
      awaDeg: wrap180Deg(wind.angleDeg),
      boatSpeedKn: wind.boatSpeedKn,
      headingTowardDegTrue: wind.headingDegTrue,
    });
  const mean = felt(wind.speedKn);
  return {
    windKn: mean.windKn / ratio,
    windFromDegTrue: mean.windKn < CALM_KN ? null : mean.windFromDegTrue,
    // Motoring into a light wind a stronger apparent wind can be a weaker true one: a gust is none then.
    gustKn: gustKn === undefined ? null : Math.max(mean.windKn, felt(gustKn).windKn) / ratio,
    isFromApparent: true,
  };
}
