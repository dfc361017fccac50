import path from 'node:path';
import { type Box, boxAround, type Forecast, type ForecastFile, type HeldFile } from '../../lib/forecast/index.ts';
import { gpxFileOf, parsePassage, type Passage } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { parseGpx } from '../../lib/track/index.ts';
import { fileProblem, loadForecast, type LoadOptions, openForecast, readWholeFile } from '../decoding/index.ts';
import { forecastOfDigestFiles, holdsDigest } from './digest-files.ts';
import { gribPath } from './grib-files.ts';

/** A passage with the forecast its file names. */
export interface LoadedPassage {
  readonly passage: Passage;
  readonly forecast: Forecast;
  /** The files it was made of, by the names the passage has for them. */
  readonly files: readonly ForecastFile[];
}

/** Who follows the loading. */
export type Watch = Pick<LoadOptions, 'onProgress' | 'signal'>;

/** Room kept round the track for running off [degrees]. */
const MARGIN_DEG = 5;

/** A passage as text, and where the names in it lead. */
export interface PassageText {
  readonly text: string;
  /** Put before the path in every problem: the file as it was named, or the passage of the store. */
  readonly where: string;
  /** Names that are relative are looked for here. */
  readonly folder: string;
  /** Name of the file it is, or came from. */
  readonly fileName: string;
  /** Store in which forecasts named `store:HASH` lie; null: there is none to look in. */
  readonly storeFolder: string | null;
  /** Items of the locker changed on the pages, by `itemKey`: when last [epoch ms]; absent: nothing is known of it. */
  readonly itemsCountedAt?: ReadonlyMap<string, number>;
}

/**
 * Reads a passage file and the forecast files it names (relative to its own folder, or in the store): GRIB files, or one
 * text file with a digest.
 *
 * @param watch progress of the decoding, and a way to stop it
 * @returns every problem of the passage, or of its forecasts; parts of a forecast that cannot be used are in its `problems`
 */
export async function loadPassage(
  file: string,
  watch: Watch = {},
  storeFolder: string | null = null,
): Promise<Result<LoadedPassage>> {
  const read = await readPassageText(file, storeFolder);
  return read.ok ? loadPassageText(read.value, watch) : read;
}

/** The same of a text that is already there. */
export async function loadPassageText(of: PassageText, watch: Watch = {}): Promise<Result<LoadedPassage>> {
  const passage = await checkPassage(of);
  if (!passage.ok) return passage;
  const made = await forecastOf(passage.value, of, watch);
  return made.ok ? ok({ passage: passage.value, ...made.value }) : made;
}

/** A passage file as text, or `file.unreadable`. */
export async function readPassageText(file: string, storeFolder: string | null = null): Promise<Result<PassageText>> {
  const text = await readText(file, 'Check the name and the folder.');
  if (!text.ok) return text;
  const [folder, fileName] = [path.dirname(file), path.basename(file)];
  return ok({ text: text.value, where: file, folder, fileName, storeFolder });
}

const STORED = /^store:([0-9a-f]{64})$/;

/** How a passage names a forecast of the store. */
export const storedName = (hash: string): string => `store:${hash}`;

/** The hash of a forecast of the store; null: the name is that of a file. */
export const storedHash = (name: string): string | null => STORED.exec(name)?.[1] ?? null;

/** The passage with its track, which may lie in a file of its own; or every problem. */
export async function checkPassage({ text, where, folder, fileName }: PassageText): Promise<Result<Passage>> {
  const gpxFile = gpxFileOf(text);
  if (gpxFile === null) return parsePassage(text, where);
  const gpxText = await readText(path.resolve(folder, gpxFile), beside(fileName, 'track'));
  if (!gpxText.ok) return gpxText;
  return parsePassage(text, where, { gpxTrack: parseGpx(gpxText.value, gpxFile) });
}

async function forecastOf(
  passage: Passage,
  of: PassageText,
  watch: Watch,
): Promise<Result<Omit<LoadedPassage, 'passage'>>> {
  if (passage.forecasts.length === 0) return failed(noForecast(of.where));
  const read = await Promise.all(passage.forecasts.map((name, index) => readForecast(name, of, index)));
  const [first, ...rest] = read.flatMap((content) => (content.ok ? [] : content.problems));
  if (first !== undefined) return failed(first, ...rest);
  const files = read.flatMap((content) => (content.ok ? [content.value] : []));
  if (files.some((file) => 'bytes' in file && holdsDigest(file))) {
    const told = forecastOfDigestFiles(files.map(octetsOf), `${of.where}, forecasts`);
    return told.ok ? ok({ forecast: told.value, files }) : told;
  }
  const around = aroundTrack(passage);
  const built = await loadForecast(files, { ...watch, ...(around === null ? {} : { around }) });
  return built.ok ? ok({ forecast: built.value, files }) : failed(...causesFirst(built.problems, passage.forecasts));
}

/** What is wrong with each file before what follows from it, which is left out where every file is none at all. */
function causesFirst(
  [conclusion, ...causes]: readonly [Problem, ...Problem[]],
  names: readonly string[],
): readonly [Problem, ...Problem[]] {
  const isNoForecast = (name: string): boolean => causes.some(({ where }) => where === name);
  const [first, ...rest] = names.every(isNoForecast) ? causes : [...causes, conclusion];
  return [first ?? conclusion, ...rest];
}

function readForecast(
  name: string,
  { where, folder, fileName, storeFolder }: PassageText,
  index: number,
): Promise<Result<ForecastFile>> {
  const place = `${where}, forecasts[${index}]`;
  if (/^[a-z]+:\/\//i.test(name)) return Promise.resolve(failed(anAddress(name, place)));
  const opened = (file: string): Promise<ForecastFile> => openForecast(file, name);
  const hash = storedHash(name);
  if (hash !== null && storeFolder !== null)
    return readOrProblem(opened, gribPath(path.join(storeFolder, 'grib'), hash), notInStore(place));
  return readOrProblem(opened, path.resolve(folder, name), beside(fileName, 'forecasts'));
}

/** A long file holds no digest. */
const octetsOf = (file: ForecastFile): HeldFile =>
  'bytes' in file ? file : { name: file.name, bytes: new Uint8Array() };

function aroundTrack(passage: Passage): Box | null {
  return boxAround(
    passage.track.waypoints.flatMap(({ lat, lon }) => [
      { lat: Math.max(-90, lat - MARGIN_DEG), lon: lon - MARGIN_DEG },
      { lat: Math.min(90, lat + MARGIN_DEG), lon: lon + MARGIN_DEG },
    ]),
  );
}

const beside = (fileName: string, key: string): string =>
  `"${key}" in ${fileName} names it, and it is looked for beside that file: put it there, or correct the name.`;

const notInStore = (place: string): string =>
  `${place} names it: it was removed from the store. Get it again, or take it out of the passage.`;

const readText = (file: string, remedy: string): Promise<Result<string>> =>
  readOrProblem(async (name) => Buffer.from(await readWholeFile(name)).toString('utf8'), file, remedy);

async function readOrProblem<T>(read: (file: string) => Promise<T>, file: string, remedy: string): Promise<Result<T>> {
  try {
    return ok(await read(file));
  } catch (error) {
    return failed(fileProblem(error, { where: file, remedy }));
  }
}

const noForecast = (where: string): Problem => ({
  code: 'passage.no-forecast',
  where: `${where}, forecasts`,
  what: 'The passage names no forecast.',
  expected: 'at least one GRIB file',
  remedy: 'Add the names of the GRIB files to "forecasts".',
});

const anAddress = (name: string, where: string): Problem => ({
  code: 'passage.forecast-address',
  where,
  what: `"${name}" is an address.`,
  expected: 'the name of a GRIB file beside the passage',
  remedy: 'Fetch it first, then name the file.',
});
