import { takeApart, WrongUse, type OptionKinds, type TakenApart } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { SENDING_OPTIONS } from './sending.ts';
import { DIGEST_OPTIONS, writeDigest } from './write-digest.ts';
import { PLAN_OPTIONS, writePlan } from './write-plan.ts';
import { REPORT_OPTIONS, writeReport } from './write-report.ts';

export const WRITE_HELP = `slatch message write plan PASSAGE|PLAN.json [--passage PASSAGE] [--number N] [--short] [--jobs N]
                          [--valid-until UTC] [--now UTC] [--until UTC] [--seed N] [--note TEXT] [HOW TO SEND]
slatch message write report --log FILE.jsonl [--since UTC] [--observations N] [--now UTC] [--note TEXT] [HOW TO SEND]
slatch message write digest PASSAGE [--hours N] [--parts N] [--now UTC] [--seed N] [HOW TO SEND]

  A message as short texts, one part a line, in characters every telephone and satellite link carries. On standard error
  stand how long each part is, and a line in plain words for when the key to the fields is lost.
    plan      from a passage, which is planned first, or the JSON of slatch plan. --passage adds the numbers to stop at
              to the latter. --short: what to do, how sure, decide by, if not, stop at; nothing else. --jobs: the first N
              jobs. --valid-until: after it only conservative defaults (else the end of the forecast)
    report    from the log: position, weather, sleep of 24 h, jobs. --since: changes from then on (else 24 h);
              --observations: the newest N (else 1)
    digest    the weather along the way for so many hours (else 48), enough to plan by without the forecast, in so many
              parts (else what fits 2 parts of 270 characters for each 48 h)

  How to send
    --limit     sms (160 septets, the default), satellite (270 octets) or a number of characters from 80
    --sender    1 to 4 capital letters and digits (else SH for plan and digest, BT for report)
    --counter   number of the message of this kind; --counters FILE takes the next and remembers it
    --key       file with a key of at least 16 octets both sides hold: signs the message. Text or any octets, line ends
                behind it do not count; hexadecimal digits are taken as letters
    --json      parts with their lengths, and all that is in them

  slatch message write plan sample-forecasts/demo-passage.json --short --jobs 2
  slatch message write report --log log.jsonl --key key.txt --counters counters.json
`;

interface Kind {
  readonly options: OptionKinds;
  readonly write: (given: TakenApart, io: CommandIo) => Promise<number>;
}

const KINDS: Readonly<Record<string, Kind>> = {
  plan: { options: PLAN_OPTIONS, write: writePlan },
  report: { options: REPORT_OPTIONS, write: writeReport },
  digest: { options: DIGEST_OPTIONS, write: writeDigest },
};

/** `slatch message write`. */
export async function printWritten(args: readonly string[], io: CommandIo): Promise<number> {
  const [name = '', ...rest] = args;
  const kind = Object.hasOwn(KINDS, name) ? KINDS[name] : undefined;
  if (kind === undefined) throw new WrongUse(`"${name}": expected plan, report or digest.`);
  const sending = Object.fromEntries(SENDING_OPTIONS.map((option) => [option, 'text' as const]));
  const given = takeApart(rest, { ...kind.options, ...sending, json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  return kind.write(given, io);
}
