import { readPlan } from '../../../lib/brief/index.ts';
import type { Job } from '../../../lib/jobs/index.ts';
import { planMessageOf } from '../../../lib/message/index.ts';
import { type Plan, planPassage } from '../../../lib/planner/index.ts';
import { ok, type Result } from '../../../lib/result/index.ts';
import { loadPassage } from '../../../server/stores/passage-files.ts';
import {
  instantOption,
  numberOption,
  type OptionKinds,
  reportProblems,
  type TakenApart,
  WrongUse,
} from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { forecastProgress } from '../forecast-progress.ts';
import { readUtf8 } from '../locker/read-utf8.ts';
import { passageGiven } from '../passage-arguments.ts';
import { readPassageFile } from '../read-passage.ts';
import { send, sendingGiven } from './sending.ts';

export const PLAN_OPTIONS = {
  passage: 'text',
  number: 'text',
  short: 'flag',
  jobs: 'text',
  'valid-until': 'text',
  now: 'text',
  until: 'text',
  seed: 'text',
  note: 'text',
} as const satisfies OptionKinds;

const MOST_NUMBER = 1_000_000;
const MOST_JOBS_COUNT = 1000;

/** `slatch message write plan`. */
export async function writePlan(given: TakenApart, io: CommandIo): Promise<number> {
  const file = oneFile(given, 'a passage file or a plan');
  const planNumber = wholeOption(given, 'number', { least: 1, most: MOST_NUMBER });
  const mostJobsCount = wholeOption(given, 'jobs', { least: 0, most: MOST_JOBS_COUNT });
  const validUntilEpochMs = instantOption(given, 'valid-until');
  const sending = await sendingGiven(given, 'plan', io);
  if (!sending.ok) return refuse(io, sending.problems);
  const known = await planAndJobs(file, given, io);
  if (!known.ok) return refuse(io, known.problems);
  const { plan, jobs } = known.value;
  if (jobs === null)
    io.err('No numbers to stop at are sent of jobs that are not planned. Name the passage with --passage.\n');
  const message = planMessageOf(plan, {
    ...(planNumber === null ? {} : { planNumber }),
    ...(mostJobsCount === null ? {} : { mostJobsCount }),
    ...(validUntilEpochMs === null ? {} : { validUntilEpochMs }),
    ...(jobs === null ? {} : { jobs }),
    note: given.texts.get('note') ?? '',
    detail: given.flags.has('short') ? 'short' : 'full',
  });
  return message.ok ? send(message.value, sending.value, given, io) : refuse(io, message.problems);
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

/** The only file of the arguments. */
export function oneFile(given: TakenApart, what: string): string {
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse(`${what} is missing.`);
  if (others.length > 0) throw new WrongUse(`one file at a time; "${others.join(' ')}" is too much.`);
  return file;
}

/** A whole number given as text, or null. */
export function wholeOption(
  given: TakenApart,
  name: string,
  range: { readonly least: number; readonly most: number },
): number | null {
  const value = numberOption(given, name, range);
  if (value !== null && !Number.isInteger(value)) throw new WrongUse(`--${name} ${value}: expected a whole number.`);
  return value;
}

interface PlanAndJobs {
  readonly plan: Plan;
  /** Null: the plan stands alone. */
  readonly jobs: readonly Job[] | null;
}

/** The plan of a passage, made now, or the plan of a file. */
async function planAndJobs(file: string, given: TakenApart, io: CommandIo): Promise<Result<PlanAndJobs>> {
  const text = await readUtf8(file, io);
  if (!text.ok) return text;
  if (isPassage(text.value)) {
    if (given.texts.has('passage')) throw new WrongUse(`--passage is for a plan; ${file} is a passage itself.`);
    return plannedNow(file, given, io);
  }
  const plan = readPlan(text.value, file);
  if (!plan.ok) return plan;
  const passageFile = given.texts.get('passage');
  if (passageFile === undefined) return ok({ plan: plan.value, jobs: null });
  const passage = await readPassageFile(passageFile, io);
  return passage.ok ? ok({ plan: plan.value, jobs: passage.value.jobs }) : passage;
}

/** A passage file says which version of the program it is for; a plan does not. */
function isPassage(text: string): boolean {
  try {
    const raw: unknown = JSON.parse(text);
    return typeof raw === 'object' && raw !== null && 'slatch' in raw;
  } catch {
    return false;
  }
}

async function plannedNow(file: string, given: TakenApart, io: CommandIo): Promise<Result<PlanAndJobs>> {
  const loaded = await loadPassage(file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return loaded;
  reportProblems(io, loaded.value.forecast.problems);
  const input = passageGiven({ ...given, file, json: given.flags.has('json') }, loaded.value, io);
  const planned = planPassage(input);
  return planned.ok ? ok({ plan: planned.value.plan, jobs: input.passage.jobs }) : planned;
}
