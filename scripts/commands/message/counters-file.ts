import { type Counters, formatCounters, NO_COUNTERS, parseCounters } from '../../../lib/message/index.ts';
import { ok, type Problem, type Result } from '../../../lib/result/index.ts';
import type { CommandIo } from '../command.ts';
import { readUtf8 } from '../locker/read-utf8.ts';
import { replaceFile } from '../replace-file.ts';
import { isAbsent } from '../log/log-file.ts';

/** The counters of --counters; a file that is not there yet holds none. Null: no file is given. */
export async function countersGiven(file: string | undefined, io: CommandIo): Promise<Result<Counters | null>> {
  if (file === undefined) return ok(null);
  if (await isAbsent(file, io)) return ok(NO_COUNTERS);
  const text = await readUtf8(file, io);
  return text.ok ? parseCounters(text.value, file) : text;
}

/** Writes the counters, whole or not at all; returns why they could not be written. */
export const keepCounters = (file: string, counters: Counters): Promise<Problem[]> =>
  replaceFile(file, formatCounters(counters));
