import { missing } from '../jobs/index.ts';
import { failed, okUnless, type Problem, type Result } from '../result/index.ts';
import { parseJson } from './json-text.ts';
import { forecastsFile, gpxTrackFile, passageFile } from './passage-file.ts';
import type { Passage } from './passage.ts';
import { readClock, readPerson, readSailing, readWork, type PassageSurroundings } from './read-parts.ts';
import { readCutting } from './read-cutting.ts';
import { readSails } from './read-sails.ts';
import { isRaw, Reader } from './reader.ts';
import { unknownKeyProblem } from '../shape/index.ts';

const REQUIRED = ['slatch', 'name', 'start', 'track', 'boat'] as const;

/**
 * Reads a passage file: shape, ranges, references, defaults.
 *
 * @param text JSON
 * @param where name of the file, put before the path in every problem
 * At most 5 million characters.
 *
 * @returns the passage, or every problem found: `passage.*`, `jobs.*`, `boat.*`, `stock.*`, `gpx.*`,
 *   `time.not-an-instant`
 */
export function parsePassage(text: string, where: string, surroundings: PassageSurroundings = {}): Result<Passage> {
  const json = parseJson(text, where);
  if (!json.ok) return json;
  if (!isRaw(json.value)) return failed(notAnObject(where));
  const reader = new Reader(json.value, where);
  reader.problems.push(...keyProblems(reader));
  const passage = readParts(reader, surroundings);
  return okUnless(reader.problems, () => {
    if (passage === null) throw new Error('a problem was lost');
    return passage;
  });
}

/** Name of the GPX file a passage takes its track from, or null; anything that is wrong with the file is left for later. */
export function gpxFileOf(text: string): string | null {
  const json = parseJson(text, '');
  if (!json.ok || !isRaw(json.value)) return null;
  const track = gpxTrackFile.safeParse(json.value['track']);
  return track.success ? track.data.gpx : null;
}

function readParts(reader: Reader, surroundings: PassageSurroundings): Passage | null {
  const name = reader.part(passageFile.shape.name, 'name', undefined);
  const clock = readClock(reader);
  const { boat, start, track, ...sailing } = readSailing(reader, surroundings);
  const { jobs, locker, orders, ...work } = readWork(reader, boat);
  const forecasts = reader.part(forecastsFile, 'forecasts', []);
  const sails = readSails(reader);
  const cutting = readCutting(reader);
  const { settings, watchkeeper, ...person } = readPerson(reader, start);
  if (
    !name ||
    !clock ||
    !boat ||
    !start ||
    !track ||
    !settings ||
    !jobs ||
    !locker ||
    !sails ||
    !orders ||
    !forecasts ||
    !watchkeeper
  )
    return null;
  return {
    name,
    ...clock,
    start,
    track,
    boat,
    watchkeeper,
    jobs,
    locker,
    sails,
    cutting,
    orders,
    forecasts,
    settings,
    defaultsUsed: [...sailing.defaultsUsed, ...person.defaultsUsed, ...work.defaultsUsed],
  };
}

function keyProblems(reader: Reader): readonly Problem[] {
  const known = Object.keys(passageFile.shape);
  const version = reader.raw['slatch'];
  return [
    ...Object.keys(reader.raw)
      .filter((key) => !known.includes(key))
      .map((key) => unknownKeyProblem(key, known, reader.at(key))),
    ...REQUIRED.filter((key) => reader.raw[key] === undefined).map((key) =>
      missing('passage.missing', reader.place(key), key === 'slatch' ? '1, the version of the file' : `"${key}"`),
    ),
    ...(version === undefined || version === 1 ? [] : [wrongVersion(version, reader.place('slatch'))]),
  ];
}

const notAnObject = (where: string): Problem => ({
  code: 'passage.type',
  where,
  what: 'The file does not hold an object.',
  expected: '{"slatch": 1, ...}',
  remedy: 'Choose a passage file.',
});

const wrongVersion = (version: unknown, where: string): Problem => ({
  code: 'passage.version',
  where,
  what: `The file has version ${JSON.stringify(version)}.`,
  expected: '1',
  remedy: 'Save it again with a program that writes version 1.',
});
