/** One input as a forecast: what the forecast room makes of it, and whether it keeps its promises. */
import { buildForecast, cutForecast, type Forecast, outlineForecast } from '../../lib/forecast/index.ts';
import type { Problem } from '../../lib/result/index.ts';

export interface ForecastAttempt {
  readonly problems: readonly Problem[];
  /** A promise broken, in words; null when all were kept. */
  readonly fault: string | null;
}

/** Fields and points above these are left to the tests of whole files: one input is not to take long. */
const MOST_FIELDS = 40;
const MOST_POINTS = 1_000_000;

/** Null where the input is too long to be tried so. */
export function tryForecast(bytes: Uint8Array, fileName: string): ForecastAttempt | null {
  const files = [{ name: fileName, bytes }];
  const { wanted } = outlineForecast(files);
  const pointCount = wanted.reduce((sum, { field }) => sum + field.pointCount, 0);
  if (wanted.length > MOST_FIELDS || pointCount > MOST_POINTS) return null;
  const built = buildForecast(files);
  if (!built.ok) return { problems: built.problems, fault: null };
  const fault = forecastFault(built.value) ?? cutFault({ name: fileName, bytes }, built.value);
  return { problems: built.value.problems, fault };
}

/** What was cut for all of the forecast's area is a forecast again, of the same quantities. */
function cutFault(file: { name: string; bytes: Uint8Array }, { coverage, held }: Forecast): string | null {
  const [first] = coverage;
  if (first === undefined) return 'a forecast that holds nothing';
  const cut = cutForecast([file], { area: { kind: 'box', box: first.area } });
  if (!cut.ok) return null;
  const again = buildForecast([{ name: 'cut', bytes: cut.value.bytes }]);
  if (!again.ok) return `cut, and not read again: ${again.problems[0].what}`;
  const added = again.value.held.find((quantity) => !held.includes(quantity));
  return added === undefined ? null : `cut, and ${added} came of it`;
}

function forecastFault({ firstEpochMs, endEpochMs, baseEpochMs, series, reference }: Forecast): string | null {
  if (![firstEpochMs, endEpochMs, baseEpochMs].every(Number.isFinite)) return 'a forecast without beginning or end';
  if (firstEpochMs > endEpochMs) return 'a forecast that ends before it begins';
  const all = [...series.values()].flatMap((members) => [...members.values()]);
  for (const { frames } of [...all, ...reference.values()]) {
    for (const { grid, first, second, startEpochMs } of frames) {
      if (!Number.isFinite(startEpochMs)) return 'a frame at no time';
      const pointCount = grid.columnCount * grid.rowCount;
      if ([first, second ?? first].some((values) => values.length !== pointCount)) return 'a frame of another size';
      if ([first, second ?? first].some((values) => values.includes(Infinity) || values.includes(-Infinity)))
        return 'a frame with an infinite value';
    }
  }
  return null;
}
