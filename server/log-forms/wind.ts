import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { ENTRY } from './places.ts';

type Raw = Readonly<Record<string, unknown>>;

const NEEDED = {
  true: ['speedKn'],
  apparent: ['speedKn', 'angleDeg', 'headingDegTrue', 'boatSpeedKn'],
} as const;
const OWN = { true: ['fromDegTrue'], apparent: ['angleDeg', 'headingDegTrue', 'boatSpeedKn'] } as const;

const NAMES: Readonly<Record<string, string>> = {
  speedKn: 'the speed of the wind',
  fromDegTrue: 'the direction of the true wind',
  angleDeg: 'the apparent wind angle',
  headingDegTrue: 'the heading',
  boatSpeedKn: 'the speed through the water',
};

/**
 * The wind of a form: nothing where no figure was entered. Figures of the other kind of wind are refused, and of a wind
 * with a figure all that its kind needs is asked for.
 *
 * @returns `{}` or `{ wind }`; `log.missing`, `log.other-wind`
 */
export function windOf(raw: unknown): Result<Raw> {
  const wind = isRecord(raw) ? raw : {};
  const kind = wind['kind'] === 'apparent' ? 'apparent' : 'true';
  if (Object.keys(wind).every((key) => key === 'kind')) return ok({});
  const other = kind === 'true' ? OWN.apparent : OWN.true;
  const [first, ...rest] = [
    ...NEEDED[kind].filter((key) => wind[key] === undefined).map((key) => missing(key, kind)),
    ...other.filter((key) => wind[key] !== undefined).map((key) => ofOther(key, kind)),
  ];
  return first === undefined ? ok({ wind: { ...wind, kind } }) : failed(first, ...rest);
}

const isRecord = (value: unknown): value is Raw => typeof value === 'object' && value !== null;

const placeOf = (key: string): string => `the log, ${ENTRY}.wind.${key}`;

const missing = (key: string, kind: 'true' | 'apparent'): Problem => ({
  code: 'log.missing',
  where: placeOf(key),
  what: `It is missing: ${NAMES[key] ?? key}.`,
  expected: kind === 'true' ? 'at least the speed of a true wind' : 'speed, angle, heading and speed through the water',
  remedy: kind === 'true' ? 'Add it.' : 'Add it, or give the true wind.',
});

const ofOther = (key: string, kind: 'true' | 'apparent'): Problem => ({
  code: 'log.other-wind',
  where: placeOf(key),
  what: `It does not belong to ${kind === 'true' ? 'a true' : 'an apparent'} wind: ${NAMES[key] ?? key}.`,
  expected: kind === 'true' ? 'speed and direction' : 'speed, angle, heading and speed through the water',
  remedy: 'Take it out, or say that it is the other wind.',
});
