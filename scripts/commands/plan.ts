import { planText, type TextSettings } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { planPassage } from '../../lib/planner/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, reportProblems } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageArguments, passageGiven, passageHelp } from './passage-arguments.ts';

const HELP = `slatch plan PASSAGE [--now UTC] [--until UTC] [--seed N] [--json]

  The joint plan of all jobs of a passage: what, in which order, when, under which handling, with the sleep between;
  for every job why then, why not earlier, what binds, what if not, and what to look at before starting. Jobs that
  cannot be done are listed with what comes nearest.
${passageHelp}
  slatch plan sample-forecasts/demo-passage.json --seed 1
`;

/** `slatch plan`. */
export const planCommand = command({
  name: 'plan',
  summary: 'the joint plan of a passage, with its reasons',
  help: HELP,
  run: printPlan,
});

function textSettings({ settings, boat }: Passage): TextSettings {
  const handlingNames = Object.fromEntries(boat.handlings.map(({ id, name }) => [id, name]));
  return { shipTimeOffsetMin: settings.shipTimeOffsetMin, handlingNames };
}

async function printPlan(args: readonly string[], io: CommandIo): Promise<number> {
  const given = passageArguments(args);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) {
    reportProblems(io, loaded.problems);
    return 1;
  }
  reportProblems(io, loaded.value.forecast.problems);
  const input = passageGiven(given, loaded.value, io);
  const startedEpochMs = io.nowEpochMs();
  const planned = planPassage(input);
  if (!planned.ok) {
    reportProblems(io, planned.problems);
    return 1;
  }
  const { plan } = planned.value;
  io.err(`planned in ${((io.nowEpochMs() - startedEpochMs) / 1000).toFixed(1)} s\n`);
  io.out(given.json ? `${JSON.stringify(plan, null, 2)}\n` : `${planText(plan, textSettings(input.passage))}\n`);
  return 0;
}
