/** The log for `slatch plan`: the passage as it stands after it, the weather seen, and what of it is new. */
import type { KnownCauses } from '../../lib/brief/index.ts';
import { type NumberedEntry, passageAfterLog, weighedAfterLog } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan, PlanInput } from '../../lib/planner/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { readLogFile, reportLog } from './log/log-file.ts';
import type { CommandIo } from './command.ts';

/** What is planned after a log. */
export interface LoggedInput {
  readonly input: PlanInput;
  /** What the log did to passage and forecast, one sentence each; complete once the plan is made. */
  readonly notes: () => readonly string[];
  /** What of it lies between the standing plan and this one. */
  readonly causes: () => KnownCauses;
}

/** Nothing is logged. */
export const withoutLog = (input: PlanInput): LoggedInput => ({ input, notes: () => [], causes: () => ({}) });

/**
 * Entries of a log file. A line that cannot be read may be the one that says the mainsail is down: then there are none.
 *
 * @returns the problems of the file and of its whole lines; a torn last line is told and left out
 */
export async function loggedEntries(file: string, io: CommandIo): Promise<Result<readonly NumberedEntry[]>> {
  const read = await readLogFile(file, io);
  if (!read.ok) return read;
  const { entries, problems, torn } = read.value;
  const [first, ...rest] = problems;
  if (first !== undefined) return failed(first, ...rest);
  reportLog({ entries, problems, torn }, io);
  return ok(entries);
}

/** The passage after the log, its forecast weighed and shifted by what was read on board. */
export function afterLog(input: PlanInput, entries: readonly NumberedEntry[]): LoggedInput {
  const { passage, forecast, nowEpochMs, standing } = input;
  const plans = standing === undefined ? {} : { plans: [standing] };
  const after = weighedAfterLog(passage, entries, { forecast, nowEpochMs, ...plans });
  return {
    input: { ...input, passage: after.passage, seenWeather: after.seenWeather },
    notes: () => [...after.notes.map(({ text }) => text), ...after.matchLines()],
    causes: () => ({
      log: entries,
      ...(standing === undefined ? {} : { pace: paces(passage, after.passage, { entries, standing }) }),
      seenWeather: after.matchLines().slice(0, 1),
    }),
  };
}

/** Own paces when the standing plan was made, and now. */
function paces(
  before: Passage,
  now: Passage,
  of: { entries: readonly NumberedEntry[]; standing: Plan },
): NonNullable<KnownCauses['pace']> {
  const then = passageAfterLog(before, of.entries, Date.parse(of.standing.madeAtUtc)).passage;
  return {
    usualRatio: before.watchkeeper.paceRatio,
    older: then.watchkeeper.paceByWork ?? {},
    newer: now.watchkeeper.paceByWork ?? {},
  };
}
