import { reportOf } from '../../../lib/message/index.ts';
import { instantOption, type OptionKinds, reportProblems, type TakenApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { nowGiven } from '../log/arguments.ts';
import { readLogFile, reportLog } from '../log/log-file.ts';
import { send, sendingGiven } from './sending.ts';
import { wholeOption } from './write-plan.ts';

export const REPORT_OPTIONS = {
  log: 'text',
  since: 'text',
  observations: 'text',
  now: 'text',
  note: 'text',
} as const satisfies OptionKinds;

const MOST_OBSERVATIONS_COUNT = 200;

/** `slatch message write report`. */
export async function writeReport(given: TakenApart, io: CommandIo): Promise<number> {
  const logFile = given.texts.get('log');
  if (logFile === undefined) throw new WrongUse('--log FILE.jsonl is missing.');
  if (given.files.length > 0)
    throw new WrongUse(`"${given.files.join(' ')}" is too much; the log is named with --log.`);
  const sinceEpochMs = instantOption(given, 'since');
  const mostObservationsCount = wholeOption(given, 'observations', { least: 0, most: MOST_OBSERVATIONS_COUNT });
  const nowEpochMs = nowGiven(given, null, io);
  const sending = await sendingGiven(given, 'report', io);
  const log = await readLogFile(logFile, io);
  const problems = [sending, log].flatMap((read) => (read.ok ? [] : read.problems));
  if (!sending.ok || !log.ok) {
    reportProblems(io, problems);
    return 1;
  }
  // A report of half a log would say "not known" of what is known.
  if (reportLog(log.value, io)) return 1;
  const report = reportOf(log.value.entries, nowEpochMs, {
    ...(sinceEpochMs === null ? {} : { sinceEpochMs }),
    ...(mostObservationsCount === null ? {} : { mostObservationsCount }),
    note: given.texts.get('note') ?? '',
  });
  if (report.ok) return send(report.value, sending.value, given, io);
  reportProblems(io, report.problems);
  return 1;
}
