import { formatLat, formatLon, formatPosition, type Position } from '../geo/index.ts';
import { indexOfPlace } from '../grib/index.ts';
import type { Problem } from '../result/index.ts';
import { formatUtc, MS_PER_H } from '../time/index.ts';
import { radFromDeg, wrap360Deg } from '../units/index.ts';
import { type Box, lonSpanDeg } from './box.ts';
import { isMeridional } from './grid-kinds.ts';
import type { QuantityCoverage } from './coverage.ts';
import type { Forecast } from './forecast.ts';
import { quantityOf } from './quantity.ts';

/** Where and when a plan needs the forecast. */
export interface NeededCoverage {
  readonly positions: readonly Position[];
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
}

/**
 * What keeps a forecast from covering a plan, with amounts: it has no wind, begins too late, ends too early, or lies
 * elsewhere. Wind and, where held, gust and sea are looked at; nothing is ever extrapolated.
 */
export function coverageProblems(forecast: Forecast, needed: NeededCoverage): Problem[] {
  const wanted = forecast.coverage.filter(({ quantity }) => quantityOf(quantity).isEssential);
  const noWind = forecast.held.includes('wind') ? [] : [noWindProblem(forecast)];
  return [...noWind, ...wanted.flatMap((held) => [...timeProblems(held, needed), ...placeProblems(held, needed)])];
}

function noWindProblem(forecast: Forecast): Problem {
  return {
    code: 'forecast.no-wind',
    where: 'forecast',
    what: `The files hold no wind at 10 m, only ${forecast.held.map((id) => quantityOf(id).name).join(', ')}.`,
    expected: 'wind at 10 m',
    remedy: 'Ask for a forecast with wind at 10 m above the surface.',
  };
}

function timeProblems(held: QuantityCoverage, needed: NeededCoverage): Problem[] {
  const { name } = quantityOf(held.quantity);
  const where = `forecast, ${name}`;
  const problems: Problem[] = [];
  if (held.firstEpochMs > needed.fromEpochMs) {
    problems.push({
      code: 'forecast.begins-late',
      where,
      what: `The ${name} begins at ${formatUtc(held.firstEpochMs)}, ${inHours(held.firstEpochMs - needed.fromEpochMs)} after the plan does.`,
      expected: `a forecast from ${formatUtc(needed.fromEpochMs)} on`,
      remedy: 'Add the earlier steps, or plan from a later hour: the hours before are unknown.',
    });
  }
  if (held.endEpochMs < needed.toEpochMs) {
    problems.push({
      code: 'forecast.ends-early',
      where,
      what: `The ${name} ends at ${formatUtc(held.endEpochMs)}, ${inHours(needed.toEpochMs - held.endEpochMs)} before the plan does.`,
      expected: `a forecast to ${formatUtc(needed.toEpochMs)}`,
      remedy: 'Get a newer or longer forecast, or plan fewer hours: what follows is unknown.',
    });
  }
  return problems;
}

const inHours = (durationMs: number): string => `${Math.round((10 * durationMs) / MS_PER_H) / 10} h`;

function placeProblems(held: QuantityCoverage, needed: NeededCoverage): Problem[] {
  const outside = needed.positions
    .map((position) => ({ position, distanceNm: outsideNm(held, position) }))
    .filter(({ distanceNm }) => distanceNm > 0.1);
  const [first] = outside;
  const farthest = outside.toSorted((a, b) => b.distanceNm - a.distanceNm)[0];
  if (first === undefined || farthest === undefined) return [];
  const { name } = quantityOf(held.quantity);
  return [
    {
      code: 'forecast.elsewhere',
      where: `forecast, ${name}`,
      what:
        `The ${name} covers ${boxText(held.area)}; ${outside.length} of ${needed.positions.length} places of the track ` +
        `lie outside, first ${formatPosition(first.position)}, the farthest by ${Math.round(farthest.distanceNm)} nm.`,
      expected: 'a forecast of the whole track',
      remedy: 'Get a forecast of a larger area, or plan only the part of the track it covers.',
    },
  ];
}

/** How far a place lies outside a grid, along its rows and columns [nm]; 0 inside. */
function outsideNm({ area, grid, gridStepDeg }: QuantityCoverage, position: Position): number {
  if (isMeridional(grid)) return outsideAreaNm(area, position);
  const { columnIndex, rowIndex } = indexOfPlace(grid, position);
  const beyond = (index: number, count: number): number => Math.max(0, -index, index - (count - 1));
  const columnsNm = 60 * gridStepDeg.lon * beyond(columnIndex, grid.columnCount);
  return Math.hypot(columnsNm, 60 * gridStepDeg.lat * beyond(rowIndex, grid.rowCount));
}

function outsideAreaNm(area: Box, position: Position): number {
  const northDeg = position.lat - area.northEast.lat;
  const southDeg = area.southWest.lat - position.lat;
  const fromWestDeg = wrap360Deg(position.lon - area.southWest.lon);
  const spanDeg = lonSpanDeg(area);
  const pastEdgeDeg = fromWestDeg <= spanDeg + 1e-6 ? 0 : Math.min(fromWestDeg - spanDeg, 360 - fromWestDeg);
  const alongParallelNm = 60 * pastEdgeDeg * Math.cos(radFromDeg(position.lat));
  return Math.hypot(60 * Math.max(0, northDeg, southDeg), alongParallelNm);
}

const boxText = ({ southWest, northEast }: Box): string => {
  const lats = `${formatLat(southWest.lat, 0)} to ${formatLat(northEast.lat, 0)}`;
  return northEast.lon - southWest.lon >= 360
    ? `${lats}, all longitudes`
    : `${lats}, from ${formatLon(southWest.lon, 0)} eastward to ${formatLon(northEast.lon, 0)}`;
};
