/** Octets 15 to 30 of Section 3: shape of the earth, code table 3.2. Read where grid lengths are given in metres. */
import { type Earth, earthOfAxes, FIXED_EARTHS } from '../grids/earth.ts';
import type { GridReading, Refusal } from '../grids/grid-reading.ts';
import { octet1, octet4, type Section } from '../section.ts';

/** The earth, a code that is not read, or one sentence that says why its axes are not the earth's. */
export function readEarth({ section }: GridReading): Earth | Refusal | string {
  const code = octet1(section, 15);
  const fixed = FIXED_EARTHS.get(code);
  if (fixed !== undefined) return fixed;
  // Code 1: a sphere; 3 and 7: axes in kilometres and in metres.
  if (code === 1) return earthOr(scaled(section, 16), scaled(section, 16));
  if (code === 3) return earthOr(scaled(section, 21) * 1000, scaled(section, 26) * 1000);
  if (code === 7) return earthOr(scaled(section, 21), scaled(section, 26));
  return {
    octet: 15,
    table: 'GRIB2 code table 3.2 (shape of the earth)',
    value: code,
    name: 'a shape of the earth unknown to this program',
    expected: '0 to 9',
  };
}

const earthOr = (majorM: number, minorM: number): Earth | string =>
  earthOfAxes({ majorM, minorM }) ??
  (Number.isNaN(majorM) || Number.isNaN(minorM)
    ? 'The half axes of the earth are missing.'
    : `The half axes of the earth are ${majorM} m and ${minorM} m.`);

/** Scale factor (one octet) and scaled value (four octets) from an octet on: value · 10^-factor; NaN when not given. */
function scaled(section: Section, octet: number): number {
  const factor = octet1(section, octet);
  return factor === 0xff ? Number.NaN : octet4(section, octet + 1) / 10 ** factor;
}
