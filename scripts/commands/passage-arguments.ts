/** What `plan` and `windows` share: the passage file and the settings given on the command line. */
import type { PlanInput } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
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
  const nowEpochMs = instantOption(given, 'now') ?? passage.fixedNowEpochMs ?? io.nowEpochMs();
  const untilEpochMs = instantOption(given, 'until');
  if (untilEpochMs !== null && untilEpochMs <= nowEpochMs) throw new WrongUse('--until does not lie after now.');
  const seed = numberOption(given, 'seed', { least: 0, most: 2 ** 31 - 1 });
  const settings = {
    ...passage.settings,
    ...(untilEpochMs === null ? {} : { horizonH: (untilEpochMs - nowEpochMs) / MS_PER_H }),
    ...(seed === null ? {} : { seed }),
  };
  return { passage: { ...passage, settings }, forecast, nowEpochMs };
}
