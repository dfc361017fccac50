/** The passage that is shown as one file for another machine, and passages that came in such a file. */
import { createReadStream } from 'node:fs';
import { mkdtemp, open, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { instantOf, type NumberedEntry, parseLog } from '../lib/log/index.ts';
import { gpxFileOf, type PassageFile, readPassageFile } from '../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import { parseGpx, type Waypoint } from '../lib/track/index.ts';
import type { Documents, PassageDocument } from './documents/index.ts';
import { type ForecastKeeper, MOST_UPLOAD_OCTETS } from './keep-forecasts.ts';
import type { PassageLog } from './keep-log.ts';
import { programVersion } from './program-version.ts';
import { sha256OfFile } from './stores/file-hash.ts';
import { exportPassage, type Imported, importPassage } from './stores/passage-archive.ts';
import { storedName } from './stores/passage-files.ts';
import { attemptLater } from './stores/store-problems.ts';

/** A file that is there until it is let go. */
export interface HeldArchive {
  readonly file: string;
  /** For the reader: a download's, or the one that was sent. */
  readonly fileName: string;
  readonly letGo: () => Promise<void>;
}

export interface PassageArchives {
  /**
   * The passage shown with its track, its forecasts and its log.
   *
   * @returns what `exportPassage` finds
   */
  readonly packPassage: () => Promise<Result<HeldArchive>>;
  /**
   * Takes such a file as it comes from a form.
   *
   * @returns `archive.too-large`; throws what the stream throws
   */
  readonly receiveArchive: (sent: {
    readonly fileName: string;
    readonly content: AsyncIterable<Uint8Array>;
  }) => Promise<Result<HeldArchive>>;
  /**
   * The passage of such a file as a new document, which is shown from now on, with its log; its forecasts go to the store.
   * The same file sent again with the same token goes on where it broke off.
   *
   * @returns what `importPassage`, `takeForecast` and `makePassage` find; forecasts that were taken stay in the store
   */
  readonly bringInPassage: (archive: HeldArchive, formToken: string) => Promise<Result<PassageDocument>>;
}

interface Options {
  readonly documents: Pick<Documents, 'passageText' | 'makePassage'>;
  readonly log: PassageLog;
  readonly forecasts: Pick<ForecastKeeper, 'takeForecast'>;
  readonly nowEpochMs: () => number;
}

export function keepArchives({ documents, log, forecasts, nowEpochMs }: Options): PassageArchives {
  const stored = async (folder: string, names: readonly string[]): Promise<Result<readonly string[]>> => {
    const references: string[] = [];
    for (const name of names) {
      const content = createReadStream(path.join(folder, name));
      // One after the other: each is looked into whole.
      // oxlint-disable-next-line no-await-in-loop
      const taken = await forecasts.takeForecast({ fileName: path.basename(name), content });
      if (!taken.ok) return taken;
      references.push(storedName(taken.value.hash));
    }
    return ok(references);
  };

  const made = async (imported: Imported, formToken: string): Promise<Result<PassageDocument>> => {
    const folder = path.dirname(imported.passage);
    const [file, entries] = [await fileWithTrack(imported.passage), await entriesOf(imported.log)];
    if (!file.ok) return file;
    if (!entries.ok) return entries;
    const references = await stored(folder, file.value.forecasts ?? []);
    if (!references.ok) return references;
    const passage = await documents.makePassage({
      file: { ...file.value, forecasts: [...references.value] },
      formToken,
    });
    if (!passage.ok) return passage;
    for (const { entry, number } of entries.value) {
      const [passageNumber, atEpochMs] = [passage.value.number, instantOf(entry.atUtc)];
      // They are numbered in this order.
      // oxlint-disable-next-line no-await-in-loop
      const kept = await log.writeLog({ passageNumber, entry, atEpochMs, formToken: `${formToken}-${number}` });
      if (!kept.ok) return kept;
    }
    return passage;
  };

  return {
    packPassage: async () => {
      const [passage, kept] = [documents.passageText(), log.passageLog()];
      if (!passage.ok) return passage;
      if (!kept.ok) return kept;
      const lines = kept.value.entries.map(({ entry }) => `${JSON.stringify(entry)}\n`);
      return held(`${path.parse(passage.value.fileName).name}.tar`, async (file) => {
        const written = await exportPassage({
          passage: passage.value,
          log: lines.length === 0 ? null : Buffer.from(lines.join('')),
          target: { file, isReplacing: false },
          program: programVersion(),
          atEpochMs: nowEpochMs(),
        });
        return written.ok ? ok(null) : written;
      });
    },
    receiveArchive: ({ fileName, content }) =>
      held(fileName, async (file) =>
        (await isWrittenWithin(file, content, MOST_UPLOAD_OCTETS)) ? ok(null) : failed(tooLarge(fileName)),
      ),
    bringInPassage: async ({ file, fileName }, formToken) => {
      const folder = path.join(path.dirname(file), 'passage');
      const imported = await importPassage({ file, folder });
      // Another file chosen in the same form is another passage.
      const token = `${formToken}-${await sha256OfFile(file)}`;
      const passage = imported.ok ? await made(imported.value, token) : imported;
      return named(passage, [
        [file, fileName],
        [folder + path.sep, `${fileName}, `],
        [folder, fileName],
      ]);
    },
  };
}

/** A file in a folder of its own, which goes with it; at once where it could not be made. A full disk is a problem. */
const held = (fileName: string, make: (file: string) => Promise<Result<null>>): Promise<Result<HeldArchive>> =>
  attemptLater(fileName, () => heldIn(fileName, make));

async function heldIn(fileName: string, make: (file: string) => Promise<Result<null>>): Promise<Result<HeldArchive>> {
  const folder = await mkdtemp(path.join(tmpdir(), 'slatch-archive-'));
  const letGo = (): Promise<void> => rm(folder, { recursive: true, force: true });
  const file = path.join(folder, 'archive.tar');
  let isMade = false;
  try {
    const outcome = named(await make(file), [[file, fileName]]);
    isMade = outcome.ok;
    return outcome.ok ? ok({ file, fileName, letGo }) : outcome;
  } finally {
    if (!isMade) await letGo();
  }
}

/** Where this machine keeps things for a moment is nobody's business, and says nothing. */
function named<T>(result: Result<T>, names: readonly (readonly [path: string, name: string])[]): Result<T> {
  if (result.ok) return result;
  const shown = (text: string): string => names.reduce((sum, [from, name]) => sum.replaceAll(from, () => name), text);
  const [first, ...rest] = result.problems.map((problem) => ({
    ...problem,
    where: shown(problem.where),
    what: shown(problem.what),
    expected: shown(problem.expected),
    remedy: shown(problem.remedy),
  }));
  return first === undefined ? result : failed(first, ...rest);
}

async function isWrittenWithin(file: string, content: AsyncIterable<Uint8Array>, mostOctets: number): Promise<boolean> {
  const handle = await open(file, 'wx', 0o600);
  try {
    let octets = 0;
    for await (const chunk of content) {
      octets += chunk.length;
      if (octets > mostOctets) return false;
      await handle.writeFile(chunk);
    }
    return true;
  } finally {
    await handle.close();
  }
}

/** The passage file with its track in it: a document of the store has no file beside it. */
async function fileWithTrack(passage: string): Promise<Result<PassageFile>> {
  const text = await readFile(passage, 'utf8');
  const file = readPassageFile(text, passage);
  const gpx = gpxFileOf(text);
  if (!file.ok || gpx === null) return file;
  const track = parseGpx(await readFile(path.join(path.dirname(passage), gpx), 'utf8'), gpx);
  return track.ok ? ok({ ...file.value, track: track.value.waypoints.map(asEntry) }) : track;
}

const asEntry = ({ lat, lon, leg, name }: Waypoint) => ({ lat, lon, leg, ...(name === null ? {} : { name }) });

async function entriesOf(log: string | null): Promise<Result<readonly NumberedEntry[]>> {
  return log === null ? ok([]) : parseLog(await readFile(log, 'utf8'), log);
}

const tooLarge = (fileName: string): Problem => ({
  code: 'archive.too-large',
  where: fileName,
  what: `The file is longer than ${MOST_UPLOAD_OCTETS / 1e6} MB.`,
  expected: 'a passage with the forecasts of its own waters',
  remedy: 'Bring it in on the command line (slatch passage import), or cut its forecasts to the corridor first.',
});
