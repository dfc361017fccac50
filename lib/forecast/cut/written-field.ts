/** Headers of a cut field: those of its own message, or their translation from edition 1. */
import type { CopiedHeaders, GribMessageSpec } from '../../grib/index.ts';
import type { MatchedField } from '../match-field.ts';
import { EDITION_2_TARGETS, type Edition2Target } from './edition-2-parameters.table.ts';

/** All of a message but its grid and values; `factorRatio` is what values are multiplied with. */
export interface WrittenHeaders {
  readonly spec: Pick<
    GribMessageSpec,
    | 'parameter'
    | 'level'
    | 'referenceEpochMs'
    | 'validity'
    | 'ensemble'
    | 'centre'
    | 'subcentre'
    | 'dataTypeCode'
    | 'typeOfProcess'
    | 'processNumber'
    | 'copied'
  >;
  readonly factorRatio: number;
}

/** When the values hold, and whether that is what the message itself says. */
export interface WrittenTime {
  readonly startEpochMs: number;
  readonly endEpochMs: number;
  readonly isOwn: boolean;
}

/**
 * Headers of a field.
 *
 * @param copied the message's own sections; null in edition 1
 */
export function writtenHeaders(found: MatchedField, time: WrittenTime, copied: CopiedHeaders | null): WrittenHeaders {
  const { field } = found;
  const { ensemble } = field;
  const about = {
    referenceEpochMs: field.referenceEpochMs,
    validity: validityOf(found, time),
    centre: field.centre,
    subcentre: field.subcentre,
  };
  if (field.parameter.edition === 2 && copied !== null) {
    const { discipline, category, number } = field.parameter;
    const own = {
      parameter: { discipline, category, number },
      level: field.level,
      ...(ensemble === null ? {} : { ensemble }),
      ...(field.typeOfProcess === null ? {} : { typeOfProcess: field.typeOfProcess }),
      copied: { ...copied, product: time.isOwn ? copied.product : null },
    };
    return { spec: { ...about, ...own }, factorRatio: 1 };
  }
  const { parameter, surface, factorRatio } = targetOf(found);
  const [discipline, category, number] = parameter;
  const translated = {
    parameter: { discipline, category, number },
    level: { first: surface, second: null },
    ...(ensemble === null ? {} : { ensemble: { ...ensemble, typeCode: memberTypeCode(found) } }),
    // Edition 1 numbers the centre's models where edition 2 has a table of kinds of processes.
    ...(field.typeOfProcess === null ? {} : { processNumber: field.typeOfProcess }),
  };
  return { spec: { ...about, ...translated }, factorRatio };
}

function targetOf({ row }: MatchedField): Edition2Target {
  const target = EDITION_2_TARGETS.find(
    (one) =>
      one.quantity === row.quantity &&
      one.part === row.part &&
      (one.reading === null || one.reading === row.reading) &&
      row.variant.startsWith(one.variant) &&
      (one.centreCode === null || one.centreCode === row.centreCode),
  );
  if (target === undefined)
    throw new Error(`no parameter of edition 2 for ${row.quantity}, ${row.part}, ${row.variant}`);
  return target;
}

/** Code table 4.6: low-resolution control; members of a pair; any other member counts as positively perturbed. */
const CONTROL = 1;
const NEGATIVELY_PERTURBED = 2;
const POSITIVELY_PERTURBED = 3;

function memberTypeCode({ field, memberId }: MatchedField): number {
  if (field.ensemble?.kind === 'control') return CONTROL;
  return memberId.endsWith('-negative') ? NEGATIVELY_PERTURBED : POSITIVELY_PERTURBED;
}

/** Statistic of code table 4.10 by how a field is read; null: an instant. */
const STATISTICS = {
  instant: null,
  rate: null,
  maximum: 'maximum',
  sum: 'accumulation',
  'mean-rate': 'average',
} as const;

function validityOf({ row }: MatchedField, { startEpochMs, endEpochMs }: WrittenTime): GribMessageSpec['validity'] {
  const statistic = STATISTICS[row.reading];
  if (statistic === null) return { kind: 'instant', validEpochMs: endEpochMs };
  return { kind: 'interval', startEpochMs, endEpochMs, statistic };
}
