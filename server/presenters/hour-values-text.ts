import type { HourValues } from '../../lib/planner/index.ts';
import { lightWords } from './light-words.ts';
import { spreadText, WIND } from './units/hour-figures.ts';
import type { ShownUnits } from './units/shown-units.ts';

const moonWords = { down: '', up: ', moon up', useful: ', moon to work by' } as const;

/** `twilight, moon up` */
export const skyText = (light: keyof typeof lightWords, moon: HourValues['moon'][number]): string =>
  `${lightWords[light]}${moonWords[moon]}`;

/** `14`, or `unknown`. */
export const valueText = (value: number | undefined, decimals: number): string =>
  value === undefined || Number.isNaN(value) ? 'unknown' : value.toFixed(decimals);

/** The figure with its unit behind it; what is unknown has none. */
export const withUnit = (text: string, unit: string): string => (text === 'unknown' ? text : `${text} ${unit}`);

/** `14 (10 to 18) kn from 210°` */
export function trueWindText({ trueWindKn, trueWindFromDegTrue }: HourValues, i: number, units: ShownUnits): string {
  const speed = spreadText(trueWindKn, i, WIND, units);
  const fromDegTrue = trueWindFromDegTrue[i];
  if (speed === 'unknown' || fromDegTrue === undefined || Number.isNaN(fromDegTrue)) return speed;
  return `${speed} from ${String(Math.round(fromDegTrue) % 360).padStart(3, '0')}°`;
}
