import { cutPlan, cutSheet, publishedCutPlan, readCutFile } from '../../lib/stock/index.ts';
import { command, numberOption, reportProblems, takeApart, WrongUse } from './arguments.ts';
import { textIn } from './check.ts';
import type { CommandIo } from './command.ts';

const HELP = `slatch cut FILE [--kerf-mm MM] [--json]

  Cuts battens, tube or rod from the bars in the locker: as many of the wanted pieces as possible by priority, then fewest
  joins, then fewest bars cut, then the longest single left-over of a bar that is cut. Prints a sheet to saw by: every bar
  with its marks in millimetres and inches, then how joined pieces go together, what is not made and what would make it
  possible, what is left. FILE:

    { "kerfMm": 3,
      "stock":  [ { "id": "rod", "lengthMm": 3000, "diameterMm": 10, "count": 2 } ],
      "pieces": [ { "id": "batten", "lengthMm": 3500, "diameterMm": 10, "count": 1, "priority": 7, "maxJoins": 1,
                    "overlapMm": 200, "endAllowanceMm": 20, "shortestPartMm": 500, "noJoinZonesMm": [[0, 600]] } ] }

  count           1 unless given; pieces are named batten#1, batten#2 …, bars rod#1, rod#2 …
  diameterMm      of bar and piece must agree to 0.01 mm
  priority        1 … 9, more is more important, 5 unless given; the greatest sum of priorities is made
  maxJoins        joints allowed in one piece, 0 unless given
  overlapMm       length of a joint; or overlapRatio, in diameters (20 unless given)
  endAllowanceMm  each piece is cut longer by so much in all; it is left on at the far end, to fit and trim
  shortestPartMm  shortest part of a joined piece (two overlaps unless given); between two joints never under two overlaps
  noJoinZonesMm   from, to on the finished piece, from its first end; a joint may touch an edge, not enter
  kerfMm          lost in each cut, 3 unless given; --kerf-mm is taken instead of the file's
  A bar yields parts when parts and a saw cut for each are no longer than the bar and one saw cut.

  --json  made, joins, barsUsed, longestLeftOverMm, optimal, cuts …; "optimal": false names what is not proven
  Exit code 0 also when a piece cannot be made: the sheet gives the reason.

  slatch cut battens.json --kerf-mm 2
`;

/** `slatch cut`. */
export const cutCommand = command({
  name: 'cut',
  help: HELP,
  run: printCut,
});

async function printCut(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { 'kerf-mm': 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse('no cut file is given.');
  if (others.length > 0) throw new WrongUse(`one cut file at a time; "${others.join(' ')}" is too much.`);
  const kerfMm = numberOption(given, 'kerf-mm', { least: 0, most: 50 });
  if (kerfMm !== null && !isInHundredths(kerfMm)) throw new WrongUse(`--kerf-mm ${kerfMm}: at most two decimals.`);
  const text = await textIn(file, io);
  const read = text.ok ? readCutFile(text.value, file) : text;
  if (!read.ok) {
    reportProblems(io, read.problems);
    return 1;
  }
  const plan = cutPlan(kerfMm === null ? read.value : withKerf(read.value, kerfMm));
  io.out(given.flags.has('json') ? `${JSON.stringify(publishedCutPlan(plan), null, 2)}\n` : sheetText(plan));
  return 0;
}

const isInHundredths = (value: number): boolean => Math.abs(value * 100 - Math.round(value * 100)) < 1e-6;

const withKerf = <T extends { readonly defaultsUsed: readonly string[] }>(request: T, kerfMm: number) => ({
  ...request,
  kerfMm,
  defaultsUsed: request.defaultsUsed.filter((used) => !used.startsWith('kerfMm')),
});

const sheetText = (plan: Parameters<typeof cutSheet>[0]): string =>
  cutSheet(plan)
    .map(({ heading, lines }) => `${heading}\n${lines.map((line) => `  ${line}\n`).join('')}`)
    .join('\n');
