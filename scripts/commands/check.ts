import { ownPlanText, publishedCheck, readOwnPlan } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { type OwnPlan, type OwnPlanCheck, ownPlanJudge } from '../../lib/planner/index.ts';
import type { Wording } from '../../lib/reasons/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, reportProblems, takeApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageGiven, passageHelp, type PassageArguments } from './passage-arguments.ts';

const HELP = `slatch check PASSAGE OWN.json [--against PLAN.json] [--now UTC] [--until UTC] [--seed N] [--json]

  Judges a plan made by hand: every entry by every rule, with amounts; how sure each job and all of them together are,
  on the draws a plan of slatch is judged on; what you will be, with exactly the sleeps you give. Nothing is moved but
  starts to the nearest slot. OWN.json is the JSON of slatch plan, or

    { "entries": [ { "jobId": "stitch", "startUtc": "2026-05-28T18:40Z", "handling": "heave-to" } ],
      "sleeps": [ { "startUtc": "2026-05-28T10:00Z", "endUtc": "2026-05-28T13:00Z" } ] }

  "handling" and "blockIndex" may be left out. --against judges another plan too, and shows its figures beside.
${passageHelp}
  slatch check sample-forecasts/demo-passage.json my-plan.json
`;

/** `slatch check`. */
export const checkCommand = command({
  name: 'check',
  help: HELP,
  run: printCheck,
});

interface CheckArguments extends PassageArguments {
  readonly ownFile: string;
}

function checkArguments(args: readonly string[]): CheckArguments {
  const given = takeApart(args, { now: 'text', until: 'text', seed: 'text', against: 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ownFile, ...others] = given.files;
  if (file === undefined || ownFile === undefined) throw new WrongUse('a passage file and a plan are needed.');
  if (others.length > 0) throw new WrongUse(`one plan at a time; "${others.join(' ')}" is too much.`);
  return { ...given, file, ownFile, json: given.flags.has('json') };
}

async function printCheck(args: readonly string[], io: CommandIo): Promise<number> {
  const given = checkArguments(args);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refuse(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const input = passageGiven(given, loaded.value, io);
  const against = given.texts.get('against');
  const own = await ownPlanIn(given.ownFile, input.passage, io);
  const other = against === undefined ? ok(null) : await ownPlanIn(against, input.passage, io);
  const problems = [own, other].flatMap((read) => (read.ok ? [] : read.problems));
  if (!own.ok || !other.ok) return refuse(io, problems);
  const judge = ownPlanJudge(input);
  if (!judge.ok) return refuse(io, judge.problems);
  const checked = judge.value.check(own.value);
  const beside = other.value === null ? null : judge.value.check(other.value);
  io.out(given.json ? jsonOf(input.passage, checked, beside) : textOf(input.passage, checked, beside));
  return 0;
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

async function ownPlanIn(file: string, passage: Passage, io: CommandIo): Promise<Result<OwnPlan>> {
  const text = await textIn(file, io);
  return text.ok ? readOwnPlan(text.value, file, passage) : text;
}

/** The text of a file, or `file.unreadable`. */
export async function textIn(file: string, io: CommandIo): Promise<Result<string>> {
  try {
    return ok(new TextDecoder().decode(await io.readFile(file)));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return failed({
      code: 'file.unreadable',
      where: file,
      what: code === 'ENOENT' ? 'There is no such file.' : `It cannot be read (${code}).`,
      expected: 'a file that can be read',
      remedy: 'Check the name and the folder.',
    });
  }
}

function wordingOf({ jobs, boat, settings }: Passage): Wording {
  const names = new Map([
    ...boat.sailStates.map(({ id, name }) => [id, inside(name)] as const),
    ...boat.handlings.map(({ id, name }) => [id, inside(name)] as const),
    ...jobs.map(({ id, name }) => [id, name] as const),
  ]);
  return { shipTimeOffsetMin: settings.shipTimeOffsetMin, nameOf: (id) => names.get(id) ?? id };
}

/** A name as it stands inside a sentence. */
const inside = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

const textOf = (passage: Passage, checked: OwnPlanCheck, beside: OwnPlanCheck | null): string =>
  `${ownPlanText(checked, { wording: wordingOf(passage), beside })}\n`;

const jsonOf = (passage: Passage, checked: OwnPlanCheck, beside: OwnPlanCheck | null): string =>
  `${JSON.stringify(publishedCheck(checked, { wording: wordingOf(passage), beside }), null, 2)}\n`;
