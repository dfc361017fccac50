/** From the chosen fields of each quantity to its series. */
import type { GridFrame } from '../grib/index.ts';
import type { Problem } from '../result/index.ts';
import { type ChosenFields, groupBy } from './choose-fields.ts';
import { type QuantityCoverage, spanOfSeries, widestGrid } from './coverage.ts';
import { gapNotes, repeatNotes } from './forecast-notes.ts';
import type { Series } from './frame.ts';
import type { GridShelf } from './grid-shelf.ts';
import { humidityFrames, isDewPoint } from './humidity.ts';
import { addImpossible, type ImpossibleValues, loadFrames, NONE_IMPOSSIBLE, type ValuesOf } from './load-frames.ts';
import { CONTROL_ID, type MatchedField } from './match-field.ts';
import type { ChosenQuantity, ForecastOutline } from './outline-forecast.ts';
import { quantityOf, type QuantityId } from './quantity.ts';

/** Values of one quantity, or the problems instead. */
export interface ReadQuantity {
  readonly quantity: QuantityId;
  readonly coverage: QuantityCoverage | null;
  readonly members: ReadonlyMap<string, Series>;
  readonly notes: readonly string[];
  readonly problems: readonly Problem[];
}

type MemberSeries = ReadQuantity['members'];

/** Decodes the chosen fields, one quantity after another, because dew points need the air temperatures read before them. */
export function readQuantities({ quantities, shelf }: ForecastOutline, valuesOf: ValuesOf): readonly ReadQuantity[] {
  const read: ReadQuantity[] = [];
  for (const chosen of quantities) {
    const air = read.find(({ quantity }) => quantity === 'air')?.members ?? new Map<string, Series>();
    read.push(readQuantity({ shelf, air, valuesOf }, chosen));
  }
  return read;
}

function readQuantity(
  { shelf, air, valuesOf }: { shelf: GridShelf; air: MemberSeries; valuesOf: ValuesOf },
  { quantity, chosen, single }: ChosenQuantity,
): ReadQuantity {
  const members = new Map<string, Series>();
  const problems: Problem[] = [];
  const wholeGrids = new Set<GridFrame>();
  let impossible = NONE_IMPOSSIBLE;
  for (const [memberId, fields] of groupBy(single.fields, (found) => found.memberId)) {
    const loaded = loadFrames(shelf, fields, valuesOf);
    for (const problem of loaded.problems) problems.push(problem);
    impossible = addImpossible(impossible, loaded.impossible);
    for (const grid of loaded.wholeGrids) wholeGrids.add(grid);
    const made = fields.some(isDewPoint)
      ? humidityFrames(loaded.frames, air.get(memberId))
      : { frames: loaded.frames, problems: [] };
    for (const problem of made.problems) problems.push(problem);
    if (made.frames.length > 0) members.set(memberId, { kind: kindOf(fields), frames: made.frames });
  }
  if (impossible.valueCount > 0) problems.push(valueImpossible(quantity, impossible));
  const coverage = coverageOf(chosen, members, wholeGrids);
  const notes = [...chosen.notes, ...repeatNotes(quantity, single), ...gapNotes(quantity, members)];
  return { quantity, coverage, members, notes, problems };
}

function valueImpossible(quantity: QuantityId, { fieldCount, valueCount, exampleN }: ImpossibleValues): Problem {
  const { name } = quantityOf(quantity);
  const such = Number.isFinite(exampleN) ? `such as ${Number(exampleN.toPrecision(4))}` : 'without an end';
  return {
    code: 'forecast.value-impossible',
    where: `forecast, ${name}`,
    what: `${valueCount} values in ${fieldCount} fields are beyond all weather, ${such}: they are taken as missing.`,
    expected: 'values that can be; missing ones marked by a bitmap',
    remedy: 'Where the sea or the whole hour is concerned, ask another source for it; over land nothing is lost.',
  };
}

function kindOf(fields: readonly MatchedField[]): Series['kind'] {
  const reading = fields[0]?.row.reading;
  return reading === 'instant' || reading === 'rate' ? 'instant' : 'interval';
}

function coverageOf(
  chosen: ChosenFields,
  members: ReadonlyMap<string, Series>,
  wholeGrids: ReadonlySet<GridFrame>,
): QuantityCoverage | null {
  // The control stands for all; without one the member with the most frames.
  const longest = [...members.values()].toSorted((a, b) => b.frames.length - a.frames.length)[0];
  const main = members.get(CONTROL_ID) ?? longest;
  const widest = widestGrid(wholeGrids);
  if (main === undefined || widest === null) return null;
  const variants = new Set(chosen.fields.map(({ row }) => row.variant));
  return {
    quantity: chosen.quantity,
    variant: [...variants].join('; '),
    kind: main.kind,
    baseEpochMs: chosen.baseEpochMs,
    centreCode: chosen.centreCode,
    ...spanOfSeries(main),
    memberCount: members.size - (members.has(CONTROL_ID) ? 1 : 0),
    hasControl: members.has(CONTROL_ID),
    ...widest,
  };
}
