/** Section 4: templates 4.0, 4.1, 4.8 and 4.11, chosen by the validity and the ensemble. */
import { codeOfStatistic } from '../code-tables/statistic.ts';
import { dateOfEpochMs } from '../dates.ts';
import type { FixedSurface } from '../field.ts';
import { dateOctets, sectionOctets, signedOctets, unsigned } from './octets.ts';
import type { GribMessageSpec } from './spec.ts';

/** Code table 4.3. */
const FORECAST = 2;
const ENSEMBLE_FORECAST = 4;
/** Code table 4.11: successive times with the same start of forecast. */
const FORECAST_TIME_INCREMENTED = 2;
const MISSING = 255;

/** Section 4 of a message. */
export function productSection(spec: GribMessageSpec): Uint8Array {
  return spec.copied?.product ?? writtenProduct(spec);
}

function writtenProduct(spec: GribMessageSpec): Uint8Array {
  const { validity, ensemble } = spec;
  const startEpochMs = validity.kind === 'instant' ? validity.validEpochMs : validity.startEpochMs;
  const lead = duration(startEpochMs - spec.referenceEpochMs);
  return sectionOctets(4, [
    ...unsigned(0, 2),
    ...unsigned(templateNumber(spec), 2),
    spec.parameter.category,
    spec.parameter.number,
    spec.typeOfProcess ?? (ensemble === undefined ? FORECAST : ENSEMBLE_FORECAST),
    MISSING,
    spec.processNumber ?? MISSING,
    ...unsigned(0xffff, 2),
    MISSING,
    lead.unitCode,
    ...signedOctets(lead.count, 4),
    ...surfaceOctets(spec.level.first),
    ...surfaceOctets(spec.level.second),
    ...(ensemble === undefined ? [] : [ensemble.typeCode, ensemble.perturbationNumber, ensemble.memberCount]),
    ...(validity.kind === 'instant' ? [] : intervalOctets(validity)),
  ]);
}

function templateNumber(spec: GribMessageSpec): number {
  if (spec.validity.kind === 'instant') return spec.ensemble === undefined ? 0 : 1;
  return spec.ensemble === undefined ? 8 : 11;
}

/** A duration in the coarsest of hours, minutes and seconds (code table 4.4) that holds it whole. */
function duration(lengthMs: number): { unitCode: number; count: number } {
  const units = [
    { unitCode: 1, unitMs: 3_600_000 },
    { unitCode: 0, unitMs: 60_000 },
    { unitCode: 13, unitMs: 1000 },
  ];
  const fitting = units.find(({ unitMs }) => lengthMs % unitMs === 0);
  if (fitting === undefined) throw new Error(`${lengthMs} ms are not whole seconds`);
  return { unitCode: fitting.unitCode, count: lengthMs / fitting.unitMs };
}

/** Type, scale factor, scaled value; up to six decimals. */
function surfaceOctets(surface: FixedSurface | null): number[] {
  if (surface === null) return [MISSING, MISSING, ...unsigned(0xffff_ffff, 4)];
  if (surface.value === null) return [surface.typeCode, MISSING, ...unsigned(0xffff_ffff, 4)];
  for (let factor = 0; factor <= 6; factor++) {
    const scaled = Math.round(surface.value * 10 ** factor);
    if (scaled / 10 ** factor === surface.value) {
      return [surface.typeCode, ...signedOctets(factor, 1), ...signedOctets(scaled, 4)];
    }
  }
  throw new Error(`level value ${surface.value} has more than six decimals`);
}

function intervalOctets(validity: Extract<GribMessageSpec['validity'], { kind: 'interval' }>): number[] {
  const length = duration(validity.endEpochMs - validity.startEpochMs);
  return [
    ...dateOctets(dateOfEpochMs(validity.endEpochMs)),
    1,
    ...unsigned(0, 4),
    codeOfStatistic(validity.statistic) ?? MISSING,
    FORECAST_TIME_INCREMENTED,
    length.unitCode,
    ...unsigned(length.count, 4),
    MISSING,
    ...unsigned(0, 4),
  ];
}
