/** What `plan` and `windows` share: the passage file and the settings given on the command line. */
import type { Passage } from '../../lib/passage/index.ts';
import type { PlanInput } from '../../lib/planner/index.ts';
import { formatUtc, MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';
import type { LoadedPassage } from '../../server/stores/passage-files.ts';
import { instantOption, numberOption, takeApart, type TakenApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';

export const passageHelp = `
  PASSAGE is a passage file (JSON, "slatch": 1); its forecasts are looked for beside it.
  --now    the instant to plan from, instead of the passage's clock
  --until  no entry ends later than this; the forecast beyond it is used for fallbacks
  --seed   seed of all drawn errors (default: the passage's)
  --json   the whole answer as JSON instead of text; every key carries its unit
`;

const MOST_SEED = 2 ** 31 - 1;

export interface PassageArguments extends TakenApart {
  readonly file: string;
  readonly json: boolean;
}

/** Takes the arguments apart; `more` are further options with a text. */
export function passageArguments(args: readonly string[], more: readonly string[] = []): PassageArguments {
  const given = takeApart(args, {
    now: 'text',
    until: 'text',
    seed: 'text',
    json: 'flag',
    ...Object.fromEntries(more.map((name) => [name, 'text' as const])),
  });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse('no passage file is given.');
  if (others.length > 0) throw new WrongUse(`one passage file at a time; "${others.join(' ')}" is too much.`);
  return { ...given, file, json: given.flags.has('json') };
}

/** The passage with what the command line says of it, and *now*: --now, else the passage's clock, else the live one. */
export function passageGiven(given: PassageArguments, loaded: LoadedPassage, io: CommandIo): PlanInput {
  const { passage, forecast } = loaded;
  const nowEpochMs = instantOption(given, 'now') ?? passage.fixedNowEpochMs ?? thisMinute(io);
  const horizonH = horizonOption(given, firstSlotEpochMs(passage, nowEpochMs));
  const seed = seedOption(given);
  const settings = {
    ...passage.settings,
    ...(horizonH === null ? {} : { horizonH }),
    ...(seed === null ? {} : { seed }),
  };
  return { passage: { ...passage, settings }, forecast, nowEpochMs };
}

const thisMinute = (io: CommandIo): number => Math.floor(io.nowEpochMs() / MS_PER_MIN) * MS_PER_MIN;

/** The first slot of a plan: planning begins now, or with the passage if that starts later. */
function firstSlotEpochMs({ start, settings }: Passage, nowEpochMs: number): number {
  const slotMs = settings.slotMin * MS_PER_MIN;
  return Math.ceil(Math.max(nowEpochMs, start.epochMs) / slotMs) * slotMs;
}

/** Hours from the first slot to --until, or null without it. */
function horizonOption(given: PassageArguments, fromEpochMs: number): number | null {
  const untilEpochMs = instantOption(given, 'until');
  if (untilEpochMs === null) return null;
  if (untilEpochMs > fromEpochMs) return (untilEpochMs - fromEpochMs) / MS_PER_H;
  const [until, from] = [formatUtc(untilEpochMs), formatUtc(fromEpochMs)];
  throw new WrongUse(`--until ${until} lies before the plan begins. Expected an instant after ${from}.`);
}

function seedOption(given: PassageArguments): number | null {
  const seed = numberOption(given, 'seed', { least: 0, most: MOST_SEED });
  if (seed !== null && !Number.isInteger(seed)) throw new WrongUse(`--seed ${seed}: expected a whole number.`);
  return seed;
}
