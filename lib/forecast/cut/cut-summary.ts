/** What a cut holds, how near it is to the files, and what it leaves out. */
import type { Problem } from '../../result/index.ts';
import { formatUtc } from '../../time/index.ts';
import { sizeOctetsOf } from '../forecast-files.ts';
import { CONTROL_ID } from '../match-field.ts';
import { QUANTITIES, quantityOf, type QuantityId } from '../quantity.ts';
import type { ChosenSteps } from './choose-steps.ts';
import type { WrittenCut } from './write-smallest.ts';
import type { PlannedFields } from './planned-fields.ts';
import { askedQuantities, type CutRequest } from './request.ts';
import type { PlannedField } from './step-fields.ts';

/** A quantity in the cut. */
export interface KeptQuantity {
  readonly quantity: QuantityId;
  readonly fieldCount: number;
  readonly hasControl: boolean;
  /** Perturbed members. */
  readonly memberCount: number;
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
  /** Of rounding: of each component of a pair; of each sum, where rain comes as sums. */
  readonly greatestError: { readonly value: number; readonly unit: string };
}

export interface CutSummary {
  /** Of the files and of the cut. */
  readonly beforeOctets: number;
  readonly afterOctets: number;
  /** Fields that a forecast of the files would use, and those in the cut. */
  readonly beforeFieldCount: number;
  readonly afterFieldCount: number;
  readonly kept: readonly KeptQuantity[];
  /** What is not in the cut, or not as it was, in sentences for the user. */
  readonly leftOut: readonly string[];
  /** What was chosen of several runs, grids and kinds, as `Forecast.notes` of the files. */
  readonly notes: readonly string[];
  /** Damaged or unusable parts of the files. */
  readonly problems: readonly Problem[];
}

export interface CutMade {
  readonly request: CutRequest;
  readonly chosen: ChosenSteps;
  readonly planned: PlannedFields;
  readonly written: WrittenCut;
}

export function summarise(made: CutMade): CutSummary {
  const { chosen, planned, written } = made;
  const { outline } = chosen;
  const present = new Set(planned.fields.map(({ quantity }) => quantity));
  const quantities = QUANTITIES.map(({ id }) => id).filter((id) => present.has(id));
  return {
    beforeOctets: outline.files.reduce((sum, file) => sum + sizeOctetsOf(file), 0),
    afterOctets: written.bytes.length,
    beforeFieldCount: outline.wanted.length,
    afterFieldCount: planned.fields.length,
    kept: quantities.map((quantity) =>
      keptQuantity(
        quantity,
        planned.fields.filter((field) => field.quantity === quantity),
      ),
    ),
    leftOut: leftOutOf(made),
    notes: [...outline.notes, ...outline.quantities.flatMap(({ chosen: { notes } }) => notes)],
    problems: [...outline.problems, ...planned.problems],
  };
}

function keptQuantity(quantity: QuantityId, fields: readonly PlannedField[]): KeptQuantity {
  const members = new Set(fields.map(({ memberId }) => memberId));
  const times = fields.map(({ found }) => found.startEpochMs);
  const ends = fields.map(({ spec }) =>
    spec.validity.kind === 'instant' ? spec.validity.validEpochMs : spec.validity.endEpochMs,
  );
  // A direction has another unit than the speed beside it; the speed's error is told.
  const told = fields.filter(({ found }) => found.row.part !== 'direction' || quantity === 'waveDirection');
  return {
    quantity,
    fieldCount: fields.length,
    hasControl: members.has(CONTROL_ID),
    memberCount: members.size - (members.has(CONTROL_ID) ? 1 : 0),
    firstEpochMs: times.reduce((first, time) => Math.min(first, time), Infinity),
    endEpochMs: ends.reduce((last, time) => Math.max(last, time), -Infinity),
    greatestError: {
      value: told.reduce((most, { greatestError }) => Math.max(most, greatestError.value), 0),
      unit: unitOf(quantity, told),
    },
  };
}

const unitOf = (quantity: QuantityId, fields: readonly PlannedField[]): string =>
  quantity === 'rain' && fields.every(({ found }) => found.row.reading === 'sum') ? 'mm' : quantityOf(quantity).unit;

function leftOutOf({ request, chosen, planned, written }: CutMade): string[] {
  return [
    ...quantitiesLeftOut(request, chosen),
    ...membersLeftOut(chosen),
    ...hoursLeftOut(request),
    ...areaLeftOut(request, planned, written),
  ];
}

const namesOf = (ids: Iterable<QuantityId>): string => [...ids].map((id) => quantityOf(id).name).join(', ');

function quantitiesLeftOut(request: CutRequest, { outline, steps }: ChosenSteps): string[] {
  const held = outline.quantities.map(({ quantity }) => quantity);
  const kept = new Set(steps.map(({ quantity }) => quantity));
  const dropped = held.filter((id) => !kept.has(id));
  const lacking = request.quantities === undefined ? [] : askedQuantities(request).filter((id) => !held.includes(id));
  const added = [...kept].filter((id) => !askedQuantities(request).includes(id));
  return [
    ...(dropped.length === 0 ? [] : [`Quantities left out: ${namesOf(dropped)}.`]),
    ...(lacking.length === 0 ? [] : [`Asked for, but not in the files: ${namesOf(lacking)}.`]),
    ...(added.length === 0 ? [] : [`Kept for the humidity, which is made of dew points: ${namesOf(added)}.`]),
  ];
}

function membersLeftOut({ memberIds, keptMemberIds }: ChosenSteps): string[] {
  const lostCount = memberIds.length - keptMemberIds.length;
  if (lostCount === 0) return [];
  return [`Members left out: ${lostCount} of ${memberIds.length}. The spread is read off those that are left.`];
}

function hoursLeftOut({ fromEpochMs, toEpochMs, everyH }: CutRequest): string[] {
  const bounds = [
    ...(fromEpochMs === undefined ? [] : [`before ${formatUtc(fromEpochMs)}`]),
    ...(toEpochMs === undefined ? [] : [`after ${formatUtc(toEpochMs)}`]),
  ];
  return [
    ...(bounds.length === 0 ? [] : [`Hours left out: those ${bounds.join(' and ')}.`]),
    ...(everyH === undefined
      ? []
      : [
          `Steps left out where they lie less than ${everyH} h apart: weather between two steps is a straight line, and gust and rain hold over longer intervals.`,
        ]),
  ];
}

function areaLeftOut({ area, everyPointCount = 1 }: CutRequest, planned: PlannedFields, written: WrittenCut): string[] {
  const beyond = area.kind === 'box' ? 'beyond the box' : `farther than ${area.marginNm} nm from the way`;
  const resampled = new Set(planned.fields.filter(({ isResampled }) => isResampled).map(({ quantity }) => quantity));
  return [
    `Places ${beyond}${written.isMasked ? ', which are written as missing' : ''}: nothing is known there.`,
    ...(planned.outside.size === 0 ? [] : [`Elsewhere, and left out: ${namesOf(planned.outside)}.`]),
    ...(planned.short.size === 0 ? [] : [`The area reaches beyond the grid of: ${namesOf(planned.short)}.`]),
    ...(everyPointCount === 1
      ? []
      : [`Grid points left out: all but every ${everyPointCount}. row and column. Values between them differ.`]),
    ...(resampled.size === 0
      ? []
      : [
          `Interpolated to a regular grid of like spacing: ${namesOf(resampled)}. Values between its points differ, most where the weather changes sharply.`,
        ]),
  ];
}
