import path from 'node:path';
import { gpxFileOf, parsePassage, type Passage } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { parseGpx } from '../../lib/track/index.ts';
import type { CommandIo } from './command.ts';

/** Reads a passage file alone, without the forecasts it names. */
export async function readPassageFile(file: string, io: CommandIo): Promise<Result<Passage>> {
  const text = await readText(file, io);
  if (!text.ok) return text;
  const gpxFile = gpxFileOf(text.value);
  if (gpxFile === null) return parsePassage(text.value, file);
  const gpx = await readText(path.resolve(path.dirname(file), gpxFile), io);
  return gpx.ok ? parsePassage(text.value, file, { gpxTrack: parseGpx(gpx.value, gpxFile) }) : gpx;
}

/** The text of a file; what the system says of one that cannot be read becomes a problem. */
async function readText(file: string, io: CommandIo): Promise<Result<string>> {
  try {
    return ok(new TextDecoder().decode(await io.readFile(file)));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return failed({
      code: 'file.unreadable',
      where: file,
      what: `It cannot be read: ${reason}.`,
      expected: 'a file',
      remedy: 'Check the name and the folder.',
    });
  }
}
