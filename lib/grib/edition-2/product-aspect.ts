/** What the values are of the parameter: probability, percentile, band of wave periods, and what else a template adds. */
import { statisticOfCode } from '../code-tables/statistic.ts';
import { assertNever } from '../../result/index.ts';
import { epochMsOfDate } from '../dates.ts';
import type { Aspect, Limits } from '../field.ts';
import { unscaleDecimal } from '../scale.ts';
import { octet1, octet4, type Section, signed1, signed4 } from '../section.ts';
import { readDate } from './identification.ts';

/** Reads the block of a template that begins at `octet`. */
export function readAspect(section: Section, { kind, octet }: { kind: Aspect['kind']; octet: number }): Aspect {
  switch (kind) {
    case 'probability':
      return {
        kind,
        typeCode: octet1(section, octet + 2),
        limits: readLimits(section, octet + 3),
        probabilityNumber: octet1(section, octet),
        probabilityCount: octet1(section, octet + 1),
      };
    case 'percentile':
      return { kind, percentileNumber: octet1(section, octet) };
    case 'wave-periods':
      return { kind, intervalCode: octet1(section, octet), limits: readLimits(section, octet + 1) };
    case 'area':
      return {
        kind,
        statistic: statisticOfCode(octet1(section, octet)),
        processCode: octet1(section, octet + 1),
        pointCount: octet1(section, octet + 2),
      };
    case 'reforecast':
      return { kind, modelEpochMs: epochMsOfDate(readDate(section, octet)) };
    case 'error':
      return { kind };
    default:
      return assertNever(kind);
  }
}

const readLimits = (section: Section, octet: number): Limits => ({
  lower: readScaled(section, octet),
  upper: readScaled(section, octet + 5),
});

/** Scale factor (one octet) and scaled value (four), sign and magnitude; all ones in either is no number. */
export function readScaled(section: Section, octet: number): number | null {
  const isMissing = octet1(section, octet) === 0xff || octet4(section, octet + 1) === 0xffff_ffff;
  return isMissing ? null : unscaleDecimal(signed4(section, octet + 1), signed1(section, octet));
}
