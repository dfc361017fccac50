import {
  changeReasons,
  changeReasonText,
  comparedPlansText,
  type ComparablePlan,
  jobNamesOf,
  planCauses,
  planCausesText,
  planChanges,
  planChangesText,
  readPlanToCompare,
} from '../../lib/brief/index.ts';
import { command, numberOption, reportProblems, takeApart, WrongUse } from './arguments.ts';
import { textIn } from './check.ts';
import type { CommandIo } from './command.ts';

const HELP = `slatch compare OLD.json NEW.json [--ship-time-min MIN] [--json]

  What changed between two plans, each the JSON of slatch plan: what moved and by how much, which handling, how sure,
  what is newly planned, what no longer, what is done, where the fallback is used; each because of what, with the amount
  the two plans give for it, and whether the forecast is a newer one.

  --ship-time-min  minutes that ship's time is ahead of UTC; without it hours are UTC
  --json           the changes as JSON instead of text

  slatch compare monday.json tuesday.json --ship-time-min 720
`;

/** `slatch compare`. */
export const compareCommand = command({
  name: 'compare',
  help: HELP,
  run: printChanges,
});

/** Ship's time is at most a day away from UTC. */
const MOST_OFFSET_MIN = 24 * 60;

async function printChanges(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { 'ship-time-min': 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [oldFile, newFile, ...others] = given.files;
  if (oldFile === undefined || newFile === undefined || others.length > 0) throw new WrongUse('two plans are needed.');
  const shipTimeOffsetMin =
    numberOption(given, 'ship-time-min', { least: -MOST_OFFSET_MIN, most: MOST_OFFSET_MIN }) ?? 0;
  const [older, newer] = await Promise.all([oldFile, newFile].map((file) => planIn(file, io)));
  if (older === undefined || newer === undefined) throw new Error('two files were asked for');
  if (!older.ok || !newer.ok) {
    reportProblems(
      io,
      [older, newer].flatMap((read) => (read.ok ? [] : read.problems)),
    );
    return 1;
  }
  if (older.value.passageName !== newer.value.passageName)
    io.err(`These are plans of two passages: ${older.value.passageName} and ${newer.value.passageName}.\n`);
  const plans = { older: older.value, newer: newer.value };
  io.out(given.flags.has('json') ? jsonOf(plans, shipTimeOffsetMin) : textOf(plans, shipTimeOffsetMin));
  return 0;
}

interface TwoPlans {
  readonly older: ComparablePlan;
  readonly newer: ComparablePlan;
}

function textOf(plans: TwoPlans, shipTimeOffsetMin: number): string {
  const changes = planChanges(plans.older, plans.newer);
  const causes = planCauses(plans).filter(({ kind }) => kind !== 'time');
  return `${comparedPlansText(plans, { changes, causes }, { shipTimeOffsetMin })}\n`;
}

/** Causes and changes as data and in words; `because`: the reason alone, null where the plans do not tell. */
function jsonOf(plans: TwoPlans, shipTimeOffsetMin: number): string {
  const changes = planChanges(plans.older, plans.newer);
  const causes = planCauses(plans);
  const reasons = changeReasons(plans, changes);
  const wording = { shipTimeOffsetMin, jobNames: jobNamesOf(plans.older, plans.newer) };
  const texts = planChangesText(changes, wording, reasons);
  const causeTexts = planCausesText(causes, wording);
  const published = {
    fromPlanNumber: plans.older.planNumber ?? null,
    toPlanNumber: plans.newer.planNumber ?? null,
    causes: causes.map((cause, k) => ({ ...cause, text: causeTexts[k] ?? '' })),
    changes: changes.map((change, k) => ({
      ...change,
      text: texts[k] ?? '',
      reason: reasons[k] ?? null,
      because: changeReasonText(reasons[k] ?? null, wording),
    })),
  };
  return `${JSON.stringify(published, null, 2)}\n`;
}

async function planIn(file: string, io: CommandIo): Promise<ReturnType<typeof readPlanToCompare>> {
  const text = await textIn(file, io);
  return text.ok ? readPlanToCompare(text.value, file) : text;
}
