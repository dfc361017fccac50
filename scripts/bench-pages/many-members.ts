/** An ensemble larger than the demo's, of the same weather. */
import { CONTROL_FILE, controlFile, fileOfMembers } from '../sample-forecasts/build-samples.ts';
import { MEMBER_COUNT, memberErrorAt } from '../sample-forecasts/member-errors.ts';
import type { MemberError } from '../sample-forecasts/weather-pattern.ts';

export interface ForecastFile {
  readonly name: string;
  readonly octets: Uint8Array;
}

/** A control run and so many members. */
export const manyMembers = (memberCount: number): readonly ForecastFile[] => [
  { name: CONTROL_FILE, octets: controlFile() },
  {
    name: `members-${memberCount}.grib2`,
    octets: fileOfMembers(Array.from({ length: memberCount }, (_, i) => (leadH: number) => mixedErrorAt(i, leadH))),
  },
];

/** The demo's members, and after them mixtures of two, which have the same variance. */
function mixedErrorAt(index: number, leadH: number): MemberError {
  const one = memberErrorAt((index % MEMBER_COUNT) + 1, leadH);
  const turn = Math.floor(index / MEMBER_COUNT);
  if (turn === 0) return one;
  const other = memberErrorAt(((index + 7 * turn) % MEMBER_COUNT) + 1, leadH);
  const mix = (value: (error: MemberError) => number): number => (value(one) + value(other)) / Math.SQRT2;
  return {
    ...one,
    timingDeviates: mix(({ timingDeviates }) => timingDeviates),
    windKn: mix(({ windKn }) => windKn),
    seaDeviates: mix(({ seaDeviates }) => seaDeviates),
    directionDeg: mix(({ directionDeg }) => directionDeg),
  };
}
