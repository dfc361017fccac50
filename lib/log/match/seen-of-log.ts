import type { Boat } from '../../boat/index.ts';
import type { Position } from '../../geo/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { wrap180Deg } from '../../units/index.ts';
import type { EffectiveEntry } from '../effective.ts';
import type { ObservationFile } from '../entry.ts';
import { trueWindOf } from '../true-wind.ts';
import type { SeenWeather } from './seen-weather.ts';

export interface SeenOfLog {
  /** In order of time, none after now. */
  readonly seen: readonly SeenWeather[];
  /** Observations left out because it cannot be said where the boat was. */
  readonly placelessCount: number;
}

/**
 * Weather of the observations of a log, at the places they were made.
 *
 * An observation without a position is put between the positions logged before and after it, if they lie within 12 h of
 * each other; else where the boat was at the nearest one, if that is within 2 h; else it is left out and counted.
 */
export function seenOfLog(
  entries: readonly EffectiveEntry[],
  boat: Pick<Boat, 'instrumentHeightM'>,
  nowEpochMs: number,
): SeenOfLog {
  const observed = entries.flatMap(({ statement, atEpochMs }) =>
    statement.kind === 'observation' && atEpochMs <= nowEpochMs ? [{ statement, atEpochMs }] : [],
  );
  const fixes = observed.flatMap(({ statement: { lat, lon }, atEpochMs }) =>
    lat === undefined || lon === undefined ? [] : [{ atEpochMs, position: { lat, lon } }],
  );
  const seen = observed
    .filter(({ statement }) => saysWeather(statement))
    .map(({ statement, atEpochMs }) => {
      const position = placeAt(fixes, atEpochMs);
      return position === null ? null : { epochMs: atEpochMs, ...position, ...weatherOf(statement, boat) };
    });
  const placed = seen.filter((one) => one !== null);
  return { seen: placed, placelessCount: seen.length - placed.length };
}

const saysWeather = ({ wind, gustKn, pressureHpa, seaHeightM }: ObservationFile): boolean =>
  [wind, gustKn, pressureHpa, seaHeightM].some((value) => value !== undefined);

/** A gust without a wind is left out: at which angle it blew is not known. */
function weatherOf(statement: ObservationFile, boat: Pick<Boat, 'instrumentHeightM'>) {
  const wind = trueWindOf(statement, boat);
  const { pressureHpa, seaHeightM } = statement;
  return {
    ...(wind === null ? {} : { windKn: wind.windKn }),
    ...(wind === null || wind.windFromDegTrue === null ? {} : { windFromDegTrue: wind.windFromDegTrue }),
    ...(wind === null || wind.gustKn === null ? {} : { gustKn: wind.gustKn }),
    ...(pressureHpa === undefined ? {} : { pressureHpa }),
    ...(seaHeightM === undefined ? {} : { seaHeightM }),
  };
}

interface Fix {
  readonly atEpochMs: number;
  readonly position: Position;
}

const LONGEST_BETWEEN_H = 12;
const NEAR_H = 2;

function placeAt(fixes: readonly Fix[], atEpochMs: number): Position | null {
  const before = fixes.filter((fix) => fix.atEpochMs <= atEpochMs).at(-1);
  const after = fixes.find((fix) => fix.atEpochMs >= atEpochMs);
  if (before !== undefined && after !== undefined) {
    const spanMs = after.atEpochMs - before.atEpochMs;
    if (spanMs === 0) return before.position;
    if (spanMs <= LONGEST_BETWEEN_H * MS_PER_H)
      return between(before.position, after.position, (atEpochMs - before.atEpochMs) / spanMs);
  }
  const near = [before, after].filter(
    (fix) => fix !== undefined && Math.abs(fix.atEpochMs - atEpochMs) <= NEAR_H * MS_PER_H,
  );
  return near[0]?.position ?? null;
}

/** A few hours' sailing: straight on the chart, the short way round the date line. */
const between = (from: Position, to: Position, share: number): Position => ({
  lat: from.lat + share * (to.lat - from.lat),
  lon: wrap180Deg(from.lon + share * wrap180Deg(to.lon - from.lon)),
});
