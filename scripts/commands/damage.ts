import {
  assessDamage,
  type DamageReport,
  parseDamageFile,
  reportTexts,
  sailText,
  tearTitle,
} from '../../lib/sail/index.ts';
import { renderSailSvg } from '../../views/render-sail.tsx';
import { command, reportProblems, takeApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { textIn } from './check.ts';
import { damageJson } from './damage/damage-json.ts';
import { drawingCss, type DrawingStyle } from './damage/drawing-css.ts';

const HELP = `slatch damage FILE [--json | --svg [--style day|night|print]]

  Where a sail is damaged, found by counting, and what follows: below which reef the tear carries no load, what it
  crosses, how it is sewn and patched, what a broken batten allows. Counts are enough; sides in metres make it sharper.
  --svg prints a drawing of the sail with the tears to scale. FILE:

    { "sail": { "kind": "mainsail", "cut": "cross-cut", "luffM": 14.6, "footM": 5, "panelCount": 12,
                "battens": { "count": 5, "kind": "full", "states": [ { "batten": 1, "state": "cracked" } ] },
                "reefs": { "count": 3 } },
      "damage": [ { "counted": { "from": "clew", "panel": 6 }, "distanceFromLeechM": 1.2,
                    "lengthM": 0.9, "direction": "across-the-load" } ] }

  kind        mainsail, headsail, staysail, trysail
  cut         cross-cut: panels counted from the clew up the leech, from the head down, or from the tack up the luff;
              radial: gores counted from the tack around by the clew and the head, or around from the corner named;
              "gores": { "tack": 4, "clew": 5, "head": 4 } where they are not thirds
  luffM footM leechM roachRatio    as far as known; "reefs": { "luffHeightsM": [2, 4.2, 6.5], "set": 1 },
              "battens": { "leechHeightsM": [13, 10.5, 8, 5.4, 2.7] } from the clew, top one first
  counted     a panel, with "seam": "next" or "before" the seam to the next or the last panel of the count
  betweenBattens   [3, 4] from the head, ["head", 1] or [5, "foot"]: instead of a panel, or to check it
  belowReef   seen to lie below that reef; reef 1 is the lowest
  distanceFromLeechM, …LuffM, …FootM, …CornerM (along a gore) or chordShare (0 luff … 1 leech): to the tear's middle
  direction   across-the-load, along-the-load, along-the-seam, across-the-seam, fore-and-aft, up-and-down;
              or angleFromFootDeg

  slatch damage my-sail.json
  slatch damage my-sail.json --svg > my-sail.svg
`;

/** `slatch damage`. */
export const damageCommand = command({ name: 'damage', help: HELP, run: printDamage });

const STYLES: readonly DrawingStyle[] = ['day', 'night', 'print'];

interface DamageArguments {
  readonly file: string;
  readonly as: 'text' | 'json' | 'svg';
  readonly style: DrawingStyle;
}

function damageArguments(args: readonly string[]): DamageArguments {
  const given = takeApart(args, { json: 'flag', svg: 'flag', style: 'text' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse('a file is needed.');
  if (others.length > 0) throw new WrongUse(`one file at a time; "${others.join(' ')}" is too much.`);
  if (given.flags.has('json') && given.flags.has('svg')) throw new WrongUse('--json and --svg exclude each other.');
  const asked = given.texts.get('style');
  const style = asked === undefined ? 'day' : STYLES.find((known) => known === asked);
  if (style === undefined) throw new WrongUse(`--style ${asked}: expected day, night or print.`);
  if (asked !== undefined && !given.flags.has('svg')) throw new WrongUse('--style goes with --svg.');
  return { file, as: given.flags.has('json') ? 'json' : given.flags.has('svg') ? 'svg' : 'text', style };
}

async function printDamage(args: readonly string[], io: CommandIo): Promise<number> {
  const { file, as, style } = damageArguments(args);
  const text = await textIn(file, io);
  const read = text.ok ? parseDamageFile(text.value, file) : text;
  const report = read.ok ? assessDamage(read.value, file) : read;
  if (!report.ok) {
    reportProblems(io, report.problems);
    return 1;
  }
  if (as === 'json') io.out(`${JSON.stringify(damageJson(report.value), null, 2)}\n`);
  else if (as === 'svg') io.out(`${svgOf(report.value, style)}\n`);
  else io.out(`${textOf(report.value)}\n`);
  return 0;
}

const textOf = (report: DamageReport): string =>
  reportTexts(report)
    .map((paragraph) => paragraph.join('\n  '))
    .join('\n\n');

const svgOf = (report: DamageReport, style: DrawingStyle): string =>
  renderSailSvg(report, {
    title: [sailText(report), ...report.tears.map(tearTitle)].join(' '),
    description: reportTexts(report).flat().join(' '),
    css: drawingCss(style),
  });
