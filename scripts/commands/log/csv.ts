import { logCsv } from '../../../lib/log/index.ts';
import { reportProblems } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { logArguments, withoutPassage } from './arguments.ts';
import { readLogFile, reportLog } from './log-file.ts';

export const CSV_HELP = `slatch log csv --log FILE.jsonl [--json]

  The log as a table (RFC 4180), an entry a row, units in the header. --json gives the same text as a JSON string.

  slatch log csv --log log.jsonl > log.csv
`;

/** `slatch log csv`. */
export async function printCsv(args: readonly string[], io: CommandIo): Promise<number> {
  const given = withoutPassage(logArguments(args, { json: 'flag' }));
  const log = await readLogFile(given.logFile, io);
  if (!log.ok) {
    reportProblems(io, log.problems);
    return 1;
  }
  const csv = logCsv(log.value.entries);
  io.out(given.flags.has('json') ? `${JSON.stringify({ csv })}\n` : csv);
  return reportLog(log.value, io) ? 1 : 0;
}
