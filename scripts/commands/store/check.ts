import { formatProblem, type Problem } from '../../../lib/result/index.ts';
import { checkStore, type StoreReport } from '../../../server/stores/index.ts';
import { reportProblems, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { sizeText } from '../../../lib/units/index.ts';
import { storeFolder } from '../store-folder.ts';
import { storeArguments } from './arguments.ts';

export const CHECK_HELP = `slatch store check [--store DIR] [--json]

  Looks a store through without changing it, also while the server runs: SQLite's own checks of the database, the numbering
  of logs, plans and messages, every forecast file by its SHA-256, what lies beside. Says what is wrong and what to do.
  Exit code 1 when something is wrong; what is odd and does no harm is told apart.

  --store  folder of the store (or SLATCH_STORE); the platform's data folder unless told

  slatch store check --store ~/slatch-2026
`;

/** `slatch store check`. */
export async function check(args: readonly string[], io: CommandIo): Promise<number> {
  const given = storeArguments(args, {});
  if (given.files.length > 0)
    throw new WrongUse(`"${given.files.join(' ')}" is too much; the store is named with --store.`);
  const report = await checkStore(storeFolder(given));
  if (!report.ok) {
    reportProblems(io, report.problems);
    return 1;
  }
  io.out(given.flags.has('json') ? `${JSON.stringify(report.value, null, 2)}\n` : reportText(report.value));
  return report.value.faults.length === 0 ? 0 : 1;
}

/** Words for one and for many rows of a table. */
const ROWS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  passage: ['passage', 'passages'],
  passage_version: ['version of passages', 'versions of passages'],
  log_entry: ['log entry', 'log entries'],
  plan: ['plan', 'plans'],
  message: ['message', 'messages'],
  forecast: ['forecast listed', 'forecasts listed'],
};

const countText = (count: number, [one, many]: readonly [string, string]): string =>
  `${count} ${count === 1 ? one : many}`;

function reportText(report: StoreReport): string {
  const { folder, databaseOctets, logOctets, forecastCount, forecastOctets, rowCounts, copies, faults, notes } = report;
  const counts = Object.entries(ROWS).flatMap(([table, words]) =>
    rowCounts[table] === undefined ? [] : [countText(rowCounts[table], words)],
  );
  return [
    folder,
    `  database   ${sizeText(databaseOctets)}${logOctets > 0 ? ` and ${sizeText(logOctets)} in its log` : ''}, ${versionText(report)}`,
    ...(counts.length === 0 ? [] : [`  holds      ${counts.join(', ')}`]),
    `  forecasts  ${countText(forecastCount, ['file', 'files'])}, ${sizeText(forecastOctets)}`,
    `  server     ${serverText(report)}`,
    ...copies.map(
      ({ name, sizeOctets }) => `  copy       ${name}, ${sizeText(sizeOctets)}: as it was before an update`,
    ),
    ...listed('Wrong:', faults),
    ...listed('Odd, and does no harm:', notes),
    faults.length === 0 ? 'Nothing is wrong.' : `${faults.length} wrong.`,
    '',
  ].join('\n');
}

const versionText = ({ version, newestVersion }: StoreReport): string => {
  if (version === null) return 'its version cannot be read';
  return version === newestVersion ? `version ${version}` : `version ${version}; opening it makes it ${newestVersion}`;
};

function serverText({ server }: StoreReport): string {
  if (server.isRunning === null) return 'cannot be told';
  if (!server.isRunning) return 'none is running';
  return server.note === '' ? 'one is running' : `running: ${server.note}`;
}

const listed = (heading: string, problems: readonly Problem[]): readonly string[] =>
  problems.length === 0 ? [] : [heading, ...problems.map((problem) => `  ${formatProblem(problem)}`)];
