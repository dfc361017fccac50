import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { boxAround, buildForecast, type Forecast } from '../../lib/forecast/index.ts';
import { gpxFileOf, parsePassage, type Passage } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { parseGpx } from '../../lib/track/index.ts';

/** A passage with the forecast its file names. */
export interface LoadedPassage {
  readonly passage: Passage;
  readonly forecast: Forecast;
}

/** Room kept round the track for running off [degrees]. */
const MARGIN_DEG = 5;

/**
 * Reads a passage file and the forecast files it names (relative to its own folder).
 *
 * @returns every problem of the passage, or of its forecasts; parts of a forecast that cannot be used are in its `problems`
 */
export async function loadPassage(file: string): Promise<Result<LoadedPassage>> {
  const text = await readOrProblem(file);
  if (!text.ok) return text;
  const passage = await readPassage(text.value.toString('utf8'), file);
  if (!passage.ok) return passage;
  const forecast = await loadForecast(passage.value, file);
  return forecast.ok ? ok({ passage: passage.value, forecast: forecast.value }) : forecast;
}

async function readPassage(text: string, file: string): Promise<Result<Passage>> {
  const gpxFile = gpxFileOf(text);
  if (gpxFile === null) return parsePassage(text, file);
  const gpxText = await readOrProblem(path.resolve(path.dirname(file), gpxFile));
  if (!gpxText.ok) return gpxText;
  return parsePassage(text, file, { gpxTrack: parseGpx(gpxText.value.toString('utf8'), gpxFile) });
}

async function loadForecast(passage: Passage, file: string): Promise<Result<Forecast>> {
  if (passage.forecasts.length === 0) return failed(noForecast(file));
  const read = await Promise.all(
    passage.forecasts.map(async (name) => ({
      name,
      content: await readOrProblem(path.resolve(path.dirname(file), name)),
    })),
  );
  const [first, ...rest] = read.flatMap(({ content }) => (content.ok ? [] : content.problems));
  if (first !== undefined) return failed(first, ...rest);
  const files = read.flatMap(({ name, content }) =>
    content.ok ? [{ name, bytes: new Uint8Array(content.value) }] : [],
  );
  return buildForecast(files, aroundTrack(passage));
}

function aroundTrack(passage: Passage): Parameters<typeof buildForecast>[1] {
  const around = boxAround(
    passage.track.waypoints.flatMap(({ lat, lon }) => [
      { lat: Math.max(-90, lat - MARGIN_DEG), lon: lon - MARGIN_DEG },
      { lat: Math.min(90, lat + MARGIN_DEG), lon: lon + MARGIN_DEG },
    ]),
  );
  return around === null ? {} : { around };
}

async function readOrProblem(file: string): Promise<Result<Buffer>> {
  try {
    return ok(await readFile(file));
  } catch (error) {
    return failed(unreadable(file, error));
  }
}

function unreadable(file: string, error: unknown): Problem {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
  const reason = code === 'ENOENT' ? 'there is no such file' : `it cannot be read (${code})`;
  return {
    code: 'file.unreadable',
    where: file,
    what: `${reason}.`,
    expected: 'a file that can be read',
    remedy: 'Check the name; forecasts are looked for beside the passage file.',
  };
}

const noForecast = (file: string): Problem => ({
  code: 'passage.no-forecast',
  where: `${file}: forecasts`,
  what: 'the passage names no forecast.',
  expected: 'at least one GRIB file',
  remedy: 'Add the names of the GRIB files to "forecasts".',
});
