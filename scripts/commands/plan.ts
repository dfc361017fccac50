import { comparedPlansText, planChanges, planText, readPlan, type TextSettings } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { type Plan, type PlanInput, planPassage } from '../../lib/planner/index.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, reportProblems } from './arguments.ts';
import { textIn } from './check.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageArguments, passageGiven, passageHelp } from './passage-arguments.ts';

const HELP = `slatch plan PASSAGE [--standing PLAN.json] [--now UTC] [--until UTC] [--seed N] [--json]

  The joint plan of all jobs of a passage: what, in which order, when, under which handling, with the sleep between;
  for every job why then, why not earlier, what binds, what if not, and what to look at before starting. Jobs that
  cannot be done are listed with what comes nearest.
${passageHelp}
  --standing  the plan that stands, the JSON of slatch plan: kept unless a better one is found; what changed is said

  slatch plan sample-forecasts/demo-passage.json --seed 1
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
  const given = passageArguments(args, ['standing']);
  const standing = await standingPlan(given.texts.get('standing'), io);
  if (!standing.ok) return refuse(io, standing.problems);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refuse(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const input = withStanding(passageGiven(given, loaded.value, io), standing.value, io);
  const startedEpochMs = io.nowEpochMs();
  const planned = planPassage(input);
  if (!planned.ok) return refuse(io, planned.problems);
  const { plan } = planned.value;
  io.err(`planned in ${((io.nowEpochMs() - startedEpochMs) / 1000).toFixed(1)} s\n`);
  io.out(given.json ? `${JSON.stringify(plan, null, 2)}\n` : textOf(plan, input));
  return 0;
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

async function standingPlan(file: string | undefined, io: CommandIo): Promise<Result<Plan | null>> {
  if (file === undefined) return ok(null);
  const text = await textIn(file, io);
  return text.ok ? readPlan(text.value, file) : text;
}

function withStanding(input: PlanInput, standing: Plan | null, io: CommandIo): PlanInput {
  if (standing === null) return input;
  if (standing.passageName !== input.passage.name)
    io.err(`The standing plan is one of another passage: ${standing.passageName}.\n`);
  return { ...input, standing };
}

function textOf(plan: Plan, { passage, standing }: PlanInput): string {
  const settings = textSettings(passage);
  const text = planText(plan, settings);
  if (standing === undefined) return `${text}\n`;
  const changes = comparedPlansText({ older: standing, newer: plan }, planChanges(standing, plan), settings);
  return `${text}\n\nWhat changed\n${changes}\n`;
}
