/** The studies' weather as a forecast centre would send it: a control run and members on a grid, every three hours. */
import { type Forecast, forecastOfSeries, type Frame, type QuantityId, type Series } from '../../lib/forecast/index.ts';
import type { LatLonFrame } from '../../lib/grib/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { uvFromWind } from '../../lib/units/index.ts';
import { noErrors, NODE_H, type WeatherErrors } from './error-paths.ts';
import { BASE_EPOCH_MS, scenariosOf, START_POSITION, type StudyForecast } from './weather.ts';

const STEP_H = 3;
const GRID_STEP_DEG = 0.5;

const GRID: LatLonFrame = {
  kind: 'latlon',
  southWest: { lat: START_POSITION.lat - 2, lon: START_POSITION.lon - 5 },
  lonStepDeg: GRID_STEP_DEG,
  latStepDeg: GRID_STEP_DEG,
  columnCount: 48,
  rowCount: 9,
  wrapsInLon: false,
};
const POINT_COUNT = GRID.columnCount * GRID.rowCount;
const GRID_LAT = Float64Array.from(
  { length: POINT_COUNT },
  (_, k) => GRID.southWest.lat + Math.floor(k / GRID.columnCount) * GRID_STEP_DEG,
);
const GRID_LON = Float64Array.from(
  { length: POINT_COUNT },
  (_, k) => GRID.southWest.lon + (k % GRID.columnCount) * GRID_STEP_DEG,
);

type Runs = readonly (readonly [id: string, errors: WeatherErrors])[];
type Along = ReturnType<ReturnType<typeof scenariosOf>['sampleScenarios']>;

/** What is taken of one hour for one run. */
type Taken = (along: Along, runIndex: number) => Pick<Frame, 'first' | 'second'>;

export function griddedForecast(study: StudyForecast): Forecast {
  const runs: Runs = [
    ['control', noErrors(Math.ceil(study.lengthH / NODE_H) + 2)],
    ...study.members.map((errors, i) => [`member ${String(i + 1).padStart(3, '0')}`, errors] as const),
  ];
  const hours = hoursOf(study, runs);
  const ofRuns = (kind: Series['kind'], take: Taken): Map<string, Series> =>
    new Map(runs.map(([id], run) => [id, seriesOf(hours, { kind, run, take })]));
  const ofControl = (kind: Series['kind'], values: (along: Along) => Float32Array): Map<string, Series> =>
    new Map([
      ['control', seriesOf(hours, { kind, run: 0, take: (along) => ({ first: values(along), second: null }) })],
    ]);
  return forecastOfSeries({
    baseEpochMs: BASE_EPOCH_MS,
    series: new Map<QuantityId, ReadonlyMap<string, Series>>([
      ['wind', ofRuns('instant', takeWind)],
      ['gust', ofRuns('interval', (along, run) => ({ first: partOf(along.gustKn, run), second: null }))],
      ['seaHeight', ofRuns('instant', (along, run) => ({ first: partOf(along.seaHeightM, run), second: null }))],
      ['wavePeriod', ofControl('instant', (along) => along.wavePeriodS)],
      ['pressure', ofControl('instant', (along) => along.pressureHpa)],
      ['rain', ofControl('interval', (along) => along.rainMmPerH)],
      ['air', ofControl('instant', (along) => along.airC)],
      ['visibility', ofControl('instant', (along) => along.visibilityNm)],
    ]),
    notes: [],
  });
}

interface Hour {
  readonly epochMs: number;
  readonly along: Along;
}

function hoursOf(study: StudyForecast, runs: Runs): Hour[] {
  const scenarios = scenariosOf(
    study,
    runs.map(([, errors]) => errors),
  );
  return Array.from({ length: Math.floor(study.lengthH / STEP_H) + 1 }, (_, k) => {
    const epochMs = BASE_EPOCH_MS + k * STEP_H * MS_PER_H;
    const points = { epochMs: new Float64Array(POINT_COUNT).fill(epochMs), lat: GRID_LAT, lon: GRID_LON };
    return { epochMs, along: scenarios.sampleScenarios(points) };
  });
}

/** Intervals end at their hour; the first hour ends none. */
function seriesOf(
  hours: readonly Hour[],
  of: { readonly kind: Series['kind']; readonly run: number; readonly take: Taken },
): Series {
  const isInterval = of.kind === 'interval';
  return {
    kind: of.kind,
    frames: hours.slice(isInterval ? 1 : 0).map(({ epochMs, along }) => ({
      startEpochMs: isInterval ? epochMs - STEP_H * MS_PER_H : epochMs,
      endEpochMs: epochMs,
      grid: GRID,
      ...of.take(along, of.run),
    })),
  };
}

const partOf = (values: Float32Array, run: number): Float32Array =>
  values.slice(run * POINT_COUNT, (run + 1) * POINT_COUNT);

function takeWind(along: Along, run: number): Pick<Frame, 'first' | 'second'> {
  const from = partOf(along.windFromDegTrue, run);
  const vectors = Array.from(partOf(along.windKn, run), (speed, k) =>
    uvFromWind({ speed, fromDegTrue: from[k] ?? Number.NaN }),
  );
  return { first: Float32Array.from(vectors, ({ u }) => u), second: Float32Array.from(vectors, ({ v }) => v) };
}
