/** Exports of a plan: what `slatch plan` writes beside its answer. */
import { resolve } from 'node:path';
import { exportNames, planCalendar, planCsv, planGpx, watchBillText } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { reportProblems, type TakenApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { replaceFile } from './replace-file.ts';

/** Options of `slatch plan`, each with a file; for `passageArguments`. */
export const EXPORT_OPTIONS = ['ics', 'gpx', 'csv', 'watch-bill'] as const;
type ExportKind = (typeof EXPORT_OPTIONS)[number];

/** For the help of `slatch plan`. */
export const exportHelp = `  --ics         the plan as a calendar (iCalendar, RFC 5545): work, sleep, ends of waits, decisions with alarms 30 and 5 min before
  --gpx         where each job begins, the track, and the way as planned (GPX 1.1)
  --csv         one row for each entry, units in the header (RFC 4180)
  --watch-bill  the watch bill as text of 80 columns, for print
                each takes a FILE, written whole or not at all; - is standard output, in place of the plan
`;

/** Where each export goes: a file, or `-`. */
export type ExportTargets = ReadonlyMap<ExportKind, string>;

/** What is exported. */
export interface Exported {
  readonly plan: Plan;
  readonly passage: Passage;
  /** The plan that stood; its events that are gone are cancelled in the calendar. */
  readonly standing?: Plan;
}

const STANDARD_OUTPUT = '-';

/** The exports asked for; wrong use where two go to one place, or one to standard output together with --json. */
export function exportTargets(given: TakenApart): ExportTargets {
  const targets = new Map<ExportKind, string>();
  const taken = new Map<string, ExportKind>();
  for (const kind of EXPORT_OPTIONS) {
    const target = given.texts.get(kind);
    if (target === undefined) continue;
    if (target === '') throw new WrongUse(`--${kind} wants a file, or - for standard output.`);
    const place = target === STANDARD_OUTPUT ? target : resolve(target);
    const other = taken.get(place);
    if (other !== undefined) throw new WrongUse(`--${other} and --${kind} go to the same place, "${target}".`);
    taken.set(place, kind);
    targets.set(kind, target);
  }
  if (isOnStandardOutput(targets) && given.flags.has('json'))
    throw new WrongUse('--json and an export to - both want standard output.');
  return targets;
}

/** Whether standard output is taken, so that the plan's own text must stay away. */
export const isOnStandardOutput = (targets: ExportTargets): boolean => [...targets.values()].includes(STANDARD_OUTPUT);

/**
 * Writes the exports: a file first beside its place, then renamed.
 *
 * @returns the exit code: 1 when a file could not be written (`file.not-written`), with every one named
 */
export async function writeExports(io: CommandIo, targets: ExportTargets, exported: Exported): Promise<number> {
  const problems: Problem[] = [];
  for (const [kind, target] of targets) {
    const text = WRITERS[kind](exported, io);
    if (target === STANDARD_OUTPUT) io.out(text);
    else problems.push(...(await replaceFile(target, text)));
  }
  reportProblems(io, problems);
  return problems.length === 0 ? 0 : 1;
}

const WRITERS: Readonly<Record<ExportKind, (exported: Exported, io: CommandIo) => string>> = {
  ics: ({ plan, passage, standing }, io) =>
    planCalendar(plan, {
      nowEpochMs: io.nowEpochMs(),
      names: exportNames(passage),
      ...(standing === undefined ? {} : { before: standing }),
    }),
  gpx: ({ plan, passage }) => planGpx(plan, { names: exportNames(passage), track: passage.track }),
  csv: ({ plan, passage }) => planCsv(plan, exportNames(passage)),
  'watch-bill': ({ plan, passage }) => watchBillText(plan, exportNames(passage)),
};
