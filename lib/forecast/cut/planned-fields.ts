/** The fields of all steps as they are to be written, in the order in which they share most headers. */
import { frameOfGrid, type GribField, headerReader } from '../../grib/index.ts';
import type { Problem, Result } from '../../result/index.ts';
import { groupBy } from '../choose-fields.ts';
import { sourceOf } from '../forecast-files.ts';
import { CONTROL_ID } from '../match-field.ts';
import { QUANTITIES, type QuantityId } from '../quantity.ts';
import type { ChosenSteps, CutStep } from './choose-steps.ts';
import { type AreaToCut, cutGrid, type CutGrid } from './cut-grid.ts';
import { maskShelf } from './mask-shelf.ts';
import { type PlannedField, type StepBench, stepFields } from './step-fields.ts';
import type { CutPrecision } from './request.ts';

export interface PlannedFields {
  readonly fields: readonly PlannedField[];
  /** Grids of which no part can be written; then there is no cut. */
  readonly refusals: readonly Problem[];
  /** Steps that cannot be read, which are left out. */
  readonly problems: readonly Problem[];
  /** Quantities on a grid that the area does not touch, and on one that the area leaves. */
  readonly outside: ReadonlySet<QuantityId>;
  readonly short: ReadonlySet<QuantityId>;
}

/** Decodes and describes the fields of every step. */
export function plannedFields(chosen: ChosenSteps, area: AreaToCut, precision: CutPrecision): PlannedFields {
  const bench = benchFor(chosen, area, precision);
  const grids = new Map<string, Result<CutGrid | null>>();
  const [fields, problems]: [PlannedField[], Problem[]] = [[], []];
  const [outside, short] = [new Set<QuantityId>(), new Set<QuantityId>()];
  for (const cutStep of inWrittenOrder(chosen.steps)) {
    const field = fieldOf(cutStep);
    const key = gridKeyOf(field);
    const grid = grids.get(key) ?? cutGrid(gridToCut(field), area);
    grids.set(key, grid);
    const gridIndex = [...grids.keys()].indexOf(key);
    if (!grid.ok) continue;
    if (grid.value === null) outside.add(cutStep.quantity);
    else {
      if (grid.value.isShort) short.add(cutStep.quantity);
      const written = stepFields(cutStep, grid.value, bench);
      if (written.ok) fields.push(...written.value.map((one) => ({ ...one, gridIndex })));
      else problems.push(...written.problems);
    }
  }
  const refusals = [...grids.values()].flatMap((grid) => (grid.ok ? [] : grid.problems));
  return { fields: neighboursAlike(fields), refusals, problems, outside, short };
}

/** Fields of one grid that need the same points one after another, so that they share a bitmap; otherwise as they come. */
function neighboursAlike(fields: readonly PlannedField[]): readonly PlannedField[] {
  const alike = groupBy(fields, ({ gridIndex, maskIndex }) => `${gridIndex} ${maskIndex}`);
  return [...alike.values()].flat();
}

function benchFor({ outline, steps }: ChosenSteps, area: AreaToCut, precision: CutPrecision): StepBench {
  const fileOfField = new Map(outline.wanted.map(({ file, field }) => [field, file]));
  const pointCounts = steps.map((step) => fieldOf(step).pointCount);
  return {
    sourceOf: ({ field }) => {
      const file = fileOfField.get(field);
      if (file === undefined) throw new Error(`field ${field.fieldNumber} is not in the outline`);
      return sourceOf(file, field);
    },
    scratch: new Float64Array(pointCounts.reduce((most, count) => Math.max(most, count), 0)),
    turns: new Map(),
    headersOf: headerReader(),
    masks: maskShelf(area),
    precision,
  };
}

function fieldOf({ step }: CutStep): GribField {
  const [found] = step.chain[0].fields;
  if (found === undefined) throw new Error('a step has fields');
  return found.field;
}

const gridKeyOf = ({ grid }: GribField): string => JSON.stringify(grid);

function gridToCut({ grid, fileName, messageNumber }: GribField) {
  if (grid.kind === 'unsupported') throw new Error('only grids that can be placed are chosen');
  const isNorthFirst = (grid.scanningMode & SOUTH_FIRST) === 0;
  const where = `${fileName}, message ${messageNumber}`;
  return { whole: frameOfGrid(grid), isRegular: grid.kind === 'regular-latlon', isNorthFirst, where };
}

/** Flag table 3.4: rows run from south to north. */
const SOUTH_FIRST = 0x40;

/**
 * Grid by grid, hour by hour, in each hour the control run and then member by member.
 */
function inWrittenOrder(steps: readonly CutStep[]): readonly CutStep[] {
  const gridKeys = new Map<string, number>();
  const keyed = steps.map((cutStep) => {
    const key = gridKeyOf(fieldOf(cutStep));
    const gridIndex = gridKeys.get(key) ?? gridKeys.size;
    gridKeys.set(key, gridIndex);
    return { cutStep, gridIndex };
  });
  return keyed
    .toSorted((a, b) => a.gridIndex - b.gridIndex || byTime(a.cutStep, b.cutStep))
    .map(({ cutStep }) => cutStep);
}

const byTime = (a: CutStep, b: CutStep): number =>
  a.step.endEpochMs - b.step.endEpochMs ||
  a.step.startEpochMs - b.step.startEpochMs ||
  memberRank(a).localeCompare(memberRank(b)) ||
  quantityRank(a) - quantityRank(b);

const memberRank = ({ memberId }: CutStep): string => (memberId === CONTROL_ID ? '' : memberId);
const quantityRank = ({ quantity }: CutStep): number => QUANTITIES.findIndex(({ id }) => id === quantity);
