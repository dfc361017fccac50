import { type QuantityCoverage, spanOfSeries, widestGrid } from './coverage.ts';
import type { Forecast } from './forecast.ts';
import type { Series } from './frame.ts';
import { CONTROL_ID } from './match-field.ts';
import { meanSeries } from './mean-series.ts';
import { QUANTITIES, type QuantityId } from './quantity.ts';

/** WMO Common Code table C-11: missing. */
const NO_CENTRE = 65535;

/** A forecast of series that come from elsewhere than files, by quantity and member (`control` for the control run). */
export function forecastOfSeries(of: {
  readonly baseEpochMs: number;
  readonly series: ReadonlyMap<QuantityId, ReadonlyMap<string, Series>>;
  readonly notes: readonly string[];
}): Forecast {
  const held = QUANTITIES.map(({ id }) => id).filter((id) => of.series.has(id));
  const coverage = held.flatMap((id) => coverageOf(id, of));
  const wind = of.series.get('wind') ?? new Map<string, Series>();
  const telling = coverage.filter(({ quantity }) => quantity === 'wind' || wind.size === 0);
  return {
    baseEpochMs: of.baseEpochMs,
    firstEpochMs: Math.min(...telling.map(({ firstEpochMs }) => firstEpochMs)),
    endEpochMs: Math.max(...telling.map(({ endEpochMs }) => endEpochMs)),
    memberIds: [...wind.keys()].filter((id) => id !== CONTROL_ID).toSorted(),
    hasControl: wind.has(CONTROL_ID),
    held,
    missing: QUANTITIES.map(({ id }) => id).filter((id) => !held.includes(id)),
    coverage,
    notes: of.notes,
    problems: [],
    series: of.series,
    reference: new Map(held.flatMap((id) => referenceOf(id, of.series))),
  };
}

function referenceOf(
  id: QuantityId,
  series: ReadonlyMap<QuantityId, ReadonlyMap<string, Series>>,
): [QuantityId, Series][] {
  const members = series.get(id);
  const reference = members?.get(CONTROL_ID) ?? meanSeries([...(members?.values() ?? [])]);
  return reference === null ? [] : [[id, reference]];
}

function coverageOf(
  quantity: QuantityId,
  of: Pick<Parameters<typeof forecastOfSeries>[0], 'baseEpochMs' | 'series'>,
): QuantityCoverage[] {
  const members = of.series.get(quantity) ?? new Map<string, Series>();
  const [first] = members.values();
  const reach = widestGrid(new Set([...members.values()].flatMap(({ frames }) => frames.map(({ grid }) => grid))));
  if (first === undefined || reach === null) return [];
  return [
    {
      quantity,
      variant: '',
      kind: first.kind,
      baseEpochMs: of.baseEpochMs,
      centreCode: NO_CENTRE,
      ...spanOfSeries(first),
      memberCount: [...members.keys()].filter((id) => id !== CONTROL_ID).length,
      hasControl: members.has(CONTROL_ID),
      ...reach,
    },
  ];
}
