import {
  coverageProblems,
  type Forecast,
  quantityOf,
  type Reading,
  seriesAt,
  type SeriesRow,
} from '../../../lib/forecast/index.ts';
import { formatPosition, type Position } from '../../../lib/geo/index.ts';
import type { Problem } from '../../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN, parseUtc } from '../../../lib/time/index.ts';
import { loadForecast } from '../../../server/decoding/index.ts';
import type { CommandIo } from '../command.ts';
import { forecastProgress } from '../forecast-progress.ts';
import { numberOption, takeApart, type TakenApart, WrongUse } from './arguments.ts';
import { readFiles, reportProblems } from './read-files.ts';

export const AT_HELP = `slatch forecast at FILE… --lat LAT --lon LON [--from UTC] [--to UTC] [--every-min MIN] [--json]

  Series of all quantities at a place, in kn, m, s, hPa, °C, mm/h. South and west are negative. Without --from and
  --to from the forecast's first hour to its last, every 180 minutes. Of an ensemble also the 10, 50 and 90 % values.

  slatch forecast at gfs.grib2 --lat -34.2 --lon 18.5 --from 2026-05-27T18:00Z --to 2026-05-29T18:00Z
`;

/** Most rows printed; a year of minutes would not be read. */
const MOST_ROWS = 100_000;

/** `slatch forecast at`. */
export async function printSeries(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, {
    lat: 'text',
    lon: 'text',
    from: 'text',
    to: 'text',
    'every-min': 'text',
    json: 'flag',
  });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length === 0) throw new WrongUse('no FILE is given.');
  const position = positionOf(given);
  const everyMin = numberOption(given, 'every-min', { least: 1, most: 1440 }) ?? 180;
  const [from, to] = [instantOption(given, 'from'), instantOption(given, 'to')];
  const { files, problems } = await readFiles(io, given.files);
  reportProblems(io, problems);
  if (problems.length > 0) return 1;
  const forecast = await loadForecast(files, {
    around: { southWest: position, northEast: position },
    onProgress: forecastProgress(io),
  });
  reportProblems(io, forecast.ok ? forecast.value.problems : forecast.problems);
  if (!forecast.ok) return 1;
  const span = spanOf(forecast.value, { from, to });
  if ((span.toEpochMs - span.fromEpochMs) / MS_PER_MIN / everyMin > MOST_ROWS)
    throw new WrongUse(`more than ${MOST_ROWS} rows are asked for: take a longer --every-min or a shorter span.`);
  const gaps = coverageProblems(forecast.value, { positions: [position], ...span });
  reportProblems(
    io,
    gaps.filter(({ code }) => code !== 'forecast.no-wind'),
  );
  const rows = seriesAt(forecast.value, { position, ...span, everyMin });
  if (rows.every(isEmpty)) {
    reportProblems(io, gaps.length > 0 ? [] : [nothingHere(position)]);
    return 1;
  }
  io.out(given.flags.has('json') ? jsonOf(forecast.value, position, rows) : textOf(forecast.value, position, rows));
  return 0;
}

function positionOf(given: TakenApart): Position {
  const lat = numberOption(given, 'lat', { least: -90, most: 90 });
  const lon = numberOption(given, 'lon', { least: -180, most: 360 });
  if (lat === null || lon === null) throw new WrongUse('--lat and --lon are needed, in signed degrees.');
  return { lat, lon };
}

function instantOption(given: TakenApart, name: string): number | null {
  const text = given.texts.get(name);
  if (text === undefined) return null;
  const instant = parseUtc(text, `--${name}`);
  if (!instant.ok) throw new WrongUse(`--${name} ${text}: expected an instant such as 2026-05-27T20:12Z.`);
  return instant.value;
}

function spanOf(forecast: Forecast, asked: { from: number | null; to: number | null }) {
  const fromEpochMs = asked.from ?? Math.min(forecast.firstEpochMs, asked.to ?? Infinity);
  const toEpochMs = asked.to ?? Math.max(forecast.endEpochMs, fromEpochMs);
  if (toEpochMs < fromEpochMs) throw new WrongUse('--to lies before --from.');
  return { fromEpochMs, toEpochMs };
}

const isEmpty = ({ readings }: SeriesRow): boolean =>
  readings.every(({ control, members }) => control === null && members === null);

function nothingHere(position: Position): Problem {
  return {
    code: 'forecast.nothing-here',
    where: 'forecast',
    what: `No quantity has a value at ${formatPosition(position)} in these hours.`,
    expected: 'a place at sea inside the forecast',
    remedy: 'Take a place further from land, or other hours.',
  };
}

function jsonOf(forecast: Forecast, position: Position, rows: readonly SeriesRow[]): string {
  const series = rows.map((row) => {
    const cells = row.readings.flatMap(({ key, control, members }): [string, unknown][] => [
      [key, rounded(control)],
      ...(members === null ? [] : [[`${key}Members`, roundedAll(members)] satisfies [string, unknown]]),
    ]);
    return { atUtc: formatUtc(row.epochMs), ...Object.fromEntries<unknown>(cells) };
  });
  const about = {
    ...position,
    baseUtc: formatUtc(forecast.baseEpochMs),
    members: forecast.memberIds.length,
    missing: forecast.missing,
    notes: forecast.notes,
  };
  return `${JSON.stringify({ ...about, series })}\n`;
}

const roundedAll = (members: Readonly<Record<'p10' | 'p50' | 'p90', number>>) => ({
  p10: rounded(members.p10),
  p50: rounded(members.p50),
  p90: rounded(members.p90),
});

/** Four decimals: values are kept in single precision. */
const rounded = (value: number | null): number | null => (value === null ? null : Math.round(value * 1e4) / 1e4);

function textOf(forecast: Forecast, position: Position, rows: readonly SeriesRow[]): string {
  const keys = (rows[0]?.readings ?? []).map(({ key }) => key);
  const head = [
    `${formatPosition(position)}, forecast of ${formatUtc(forecast.baseEpochMs)}`,
    `not held: ${forecast.missing.map((id) => quantityOf(id).name).join(', ') || 'nothing'}`,
    ...forecast.notes,
    ['UTC'.padEnd(17), ...keys.map((key) => key.padStart(cellWidth(key)))].join('  '),
  ];
  const lines = rows.map((row) =>
    [
      formatUtc(row.epochMs).padEnd(17),
      ...row.readings.map((reading) => cellText(reading).padStart(cellWidth(reading.key))),
    ].join('  '),
  );
  return `${[...head, ...lines].join('\n')}\n`;
}

const cellWidth = (key: string): number => Math.max(key.length, 16);

/** Control, then 10–50–90 % of the members. */
function cellText({ control, members }: Reading): string {
  const spread = members === null ? '' : [members.p10, members.p50, members.p90].map((p) => p.toFixed(1)).join('–');
  return [control === null ? '' : control.toFixed(1), spread].filter((text) => text !== '').join(' ') || 'unknown';
}
