import {
  comparedPlansText,
  planCauses,
  planChanges,
  planText,
  readPlan,
  type TextSettings,
} from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { type Plan, type PlanInput, planPassage } from '../../lib/planner/index.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, numberOption, reportProblems, type TakenApart, WrongUse } from './arguments.ts';
import { textIn } from './check.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageArguments, passageGiven, passageHelp } from './passage-arguments.ts';
import { EXPORT_OPTIONS, exportHelp, exportTargets, isOnStandardOutput, writeExports } from './plan-exports.ts';
import { afterLog, loggedEntries, type LoggedInput, withoutLog } from './plan-log.ts';

const HELP = `slatch plan PASSAGE [--log LOG.jsonl] [--standing PLAN.json] [--number N] [--now UTC] [--until UTC] [--seed N]
            [--ics FILE] [--gpx FILE] [--csv FILE] [--watch-bill FILE] [--json]

  The joint plan of all jobs of a passage: what, in which order, when, under which handling, with the sleep between;
  for every job why then, why not earlier, what binds, what if not, and what to look at before starting. Jobs that
  cannot be done are listed with what comes nearest.
${passageHelp}
  --log       what happened (slatch log): place, sails, sleep, what is done and half done, own pace, and the weather seen,
              by which the forecast is weighed and shifted
  --standing  the plan that stands, the JSON of slatch plan: kept unless a better one is found; what changed is said
  --number    the number the plan is kept under (default: one more than the standing plan's, where that has one)
${exportHelp}
  slatch plan sample-forecasts/demo-passage.json --seed 1
  slatch plan sample-forecasts/demo-passage.json --log log.jsonl --standing plan-3.json --json > plan-4.json
`;

/** `slatch plan`. */
export const planCommand = command({
  name: 'plan',
  help: HELP,
  run: printPlan,
});

function textSettings({ settings, boat }: Passage): TextSettings {
  const handlingNames = Object.fromEntries(boat.handlings.map(({ id, name }) => [id, name]));
  return { shipTimeOffsetMin: settings.shipTimeOffsetMin, handlingNames };
}

async function printPlan(args: readonly string[], io: CommandIo): Promise<number> {
  const given = passageArguments(args, ['standing', 'log', 'number', ...EXPORT_OPTIONS]);
  const targets = exportTargets(given);
  const standing = await standingPlan(given.texts.get('standing'), io);
  if (!standing.ok) return refuse(io, standing.problems);
  const planNumber = numberGiven(given, standing.value);
  const logFile = given.texts.get('log');
  const entries = logFile === undefined ? ok(null) : await loggedEntries(logFile, io);
  if (!entries.ok) return refuse(io, entries.problems);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refuse(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const input = withStanding(passageGiven(given, loaded.value, io), standing.value, io);
  const logged = entries.value === null ? withoutLog(input) : afterLog(input, entries.value);
  const startedEpochMs = io.nowEpochMs();
  const planned = planPassage(logged.input);
  if (!planned.ok) return refuse(io, planned.problems);
  const plan = { ...planned.value.plan, planNumber };
  io.err(`planned in ${((io.nowEpochMs() - startedEpochMs) / 1000).toFixed(1)} s\n`);
  if (given.json || isOnStandardOutput(targets)) for (const note of logged.notes()) io.err(`${note}\n`);
  if (given.json) io.out(`${JSON.stringify(plan, null, 2)}\n`);
  else if (!isOnStandardOutput(targets)) io.out(textOf(plan, logged));
  const before = standing.value === null ? {} : { standing: standing.value };
  return writeExports(io, targets, { plan, passage: logged.input.passage, ...before });
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

/** The standing plan of a file; null: none is given. */
export async function standingPlan(file: string | undefined, io: CommandIo): Promise<Result<Plan | null>> {
  if (file === undefined) return ok(null);
  const text = await textIn(file, io);
  return text.ok ? readPlan(text.value, file) : text;
}

const MOST_NUMBER = 1_000_000;

/** The number given, else the one after the standing plan's; null: neither has one. */
function numberGiven(given: TakenApart, standing: Plan | null): number | null {
  const standingNumber = standing?.planNumber ?? null;
  const number = numberOption(given, 'number', { least: 1, most: MOST_NUMBER });
  if (number === null) return standingNumber === null ? null : standingNumber + 1;
  if (!Number.isInteger(number)) throw new WrongUse(`--number ${number}: expected a whole number.`);
  if (standingNumber !== null && number <= standingNumber)
    throw new WrongUse(`--number ${number}: the standing plan is number ${standingNumber}, expected a higher one.`);
  return number;
}

function withStanding(input: PlanInput, standing: Plan | null, io: CommandIo): PlanInput {
  if (standing === null) return input;
  if (standing.passageName !== input.passage.name)
    io.err(`The standing plan is one of another passage: ${standing.passageName}.\n`);
  return { ...input, standing };
}

function textOf(plan: Plan, { input, notes, causes }: LoggedInput): string {
  const settings = textSettings(input.passage);
  const said = notes().map((note) => `  - ${note}`);
  const parts = [planText(plan, settings), ...(said.length === 0 ? [] : [['By the log', ...said].join('\n')])];
  if (input.standing !== undefined) {
    const plans = { older: input.standing, newer: plan };
    const of = { changes: planChanges(input.standing, plan), causes: planCauses(plans, causes()) };
    parts.push(`What changed\n${comparedPlansText(plans, of, settings)}`);
  }
  return `${parts.join('\n\n')}\n`;
}
