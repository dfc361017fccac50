/**
 * What values of a quantity can be, in Slatch's units, with room to spare on both sides. What lies beyond is no weather:
 * a code for a missing value that no bitmap marks (-999, 9999, 1e20), or damage. A wave height of -999 m would else count
 * as fair.
 *
 * The extremes measured are from the World Weather and Climate Extremes Archive of the WMO (from memory): gust 113 m/s, 870
 * and 1084 hPa, -89 and 57 °C, 305 mm of rain in 42 min, significant wave height 19 m; dew point 35 °C. The bounds are ours.
 */
import type { ParameterRow } from './quantities.table.ts';
import type { QuantityId } from './quantity.ts';

interface Bounds {
  /** In the unit of the quantity. */
  readonly leastN: number;
  readonly mostN: number;
}

/** Packing leaves values a little below zero. */
const upTo = (mostN: number): Bounds => ({ leastN: -1, mostN });
const either = (mostN: number): Bounds => ({ leastN: -mostN, mostN });

const BOUNDS: Readonly<Record<QuantityId, Bounds>> = {
  wind: either(300),
  gust: upTo(300),
  seaHeight: upTo(50),
  wavePeriod: upTo(100),
  waveDirection: either(720),
  pressure: { leastN: 800, mostN: 1150 },
  rain: upTo(2000),
  air: { leastN: -110, mostN: 80 },
  humidity: upTo(200),
  seaWater: { leastN: -20, mostN: 60 },
  cape: { leastN: -1000, mostN: 50_000 },
  visibility: upTo(2000),
  cloud: upTo(2),
  current: either(50),
};

/** Degrees, as files have them. */
const DIRECTIONS = either(720);
/** Sums of a whole run [mm]. */
const RAIN_SUMS = upTo(50_000);
/** Cold dry air has very low dew points [°C]. */
const DEW_POINTS: Bounds = { leastN: -150, mostN: 80 };

function boundsOf({ quantity, part, reading }: ParameterRow): Bounds {
  if (part === 'direction') return DIRECTIONS;
  if (part === 'dewPoint') return DEW_POINTS;
  return reading === 'sum' ? RAIN_SUMS : BOUNDS[quantity];
}

/** From a value of the file to Slatch's unit; NaN for what is missing or can be no weather. */
export function possibleValue(row: ParameterRow): (value: number) => number {
  const { leastN, mostN } = boundsOf(row);
  // Its conversion brings it within its bounds, whatever it was.
  const isBounded = row.quantity === 'humidity' && row.part === 'single';
  return (value) => {
    const converted = row.toUnit(value);
    const judged = isBounded ? value : converted;
    return judged >= leastN && judged <= mostN ? converted : Number.NaN;
  };
}
