import { entryWords, logRows, type LogRow } from '../../../lib/log/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { reportProblems } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { logArguments, withoutPassage } from './arguments.ts';
import { readLogFile, reportLog } from './log-file.ts';

export const LIST_HELP = `slatch log list --log FILE.jsonl [--json]

  Every entry in the order it was written: number, time, what it says; a correction stands also beside what it corrects.
  Lines that cannot be read are named on standard error, and the exit code is 1; a torn last line is only said.

  slatch log list --log log.jsonl
`;

/** `slatch log list`. */
export async function listEntries(args: readonly string[], io: CommandIo): Promise<number> {
  const given = withoutPassage(logArguments(args, { json: 'flag' }));
  const log = await readLogFile(given.logFile, io);
  if (!log.ok) {
    reportProblems(io, log.problems);
    return 1;
  }
  const rows = logRows(log.value.entries);
  io.out(given.flags.has('json') ? jsonText(rows) : listText(rows));
  return reportLog(log.value, io) ? 1 : 0;
}

function listText(rows: readonly LogRow[]): string {
  if (rows.length === 0) return 'Nothing is logged.\n';
  const width = String(rows.at(-1)?.number ?? 0).length;
  return rows
    .map((row) => {
      const line = `${String(row.number).padStart(width)}  ${formatUtc(row.atEpochMs)}  ${entryWords(row.entry)}`;
      return `${line}${besideText(row)}\n`;
    })
    .join('');
}

function besideText({ correctedBy, isWithdrawn }: LogRow): string {
  if (correctedBy === null) return '';
  if (isWithdrawn) return `  [withdrawn by ${correctedBy.number}]`;
  const words = entryWords(correctedBy.entry).replace(/^entry \d+ is /, '');
  return `  [corrected by ${correctedBy.number}: ${words}]`;
}

function jsonText(rows: readonly LogRow[]): string {
  const entries = rows.map(({ number, entry, correctedBy, isWithdrawn }) => ({
    number,
    entry,
    words: entryWords(entry),
    correctedByNumber: correctedBy?.number ?? null,
    isWithdrawn,
  }));
  return `${JSON.stringify({ entries }, null, 2)}\n`;
}
