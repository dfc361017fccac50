import { STITCH_RATES } from '../../lib/stock/index.ts';
import { command, reportProblems } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { readSeamRequest } from './seam/read-arguments.ts';
import { seamFigures } from './seam/seam-figures.ts';
import { paceLossText, seamText } from './seam/seam-text.ts';

const CLOTHS = STITCH_RATES.map(
  ({ cloth, slowMPerH, likelyMPerH, fastMPerH, name }) =>
    `    ${cloth.padEnd(16)}  ${[slowMPerH, likelyMPerH, fastMPerH].map((rate) => rate.toFixed(2)).join(' / ')}  ${name}`,
).join('\n');

const HELP = `slatch seam --length-m M | --length-ft FT [--rows N] [--cloth ID] [--rate-m-per-h M] [--pace-loss] [--single]
            [--pitch-mm MM] [--width-mm MM] [--thickness-mm MM]
            [--tear-width-mm MM] [--overlap-mm MM] [--sides N] [--layers N] [--edge-rows N]
            [--session-min MIN] [--pause-min MIN] [--stretch-h H] [--rest-h H] [--json]

  What a tear or a seam takes when it is sewn by hand in herringbone, and the patch over it.
    stitches     length / pitch x rows (pitch 5 mm)
    twine        doubled in the needle (--single: not), 15 % for ends; thread 6 times the row, or where pitch, width or
                 thickness is given 2 (hypot(width, pitch) + thickness) per stitch (width 15 mm, thickness 0)
    needlefuls   an arm's length of twine, 0.9 m; needles: one per 0.7 m of row, four at least
    hours        rows x length / rate, with the needle; --rate-m-per-h is your own likely rate, slow and fast keep their
                 proportion. --pace-loss: ${paceLossText()} with the needle; pauses only
                 stop that clock, a long rest sets it back. Rates are those of whole jobs, so it is off by default
    whole job    set-up, needle and finish by PERT, correlated 0.5: half, four fifths, nine tenths of such jobs are done
                 in P50, P80, P90. Cold, gloves, dark and motion are for the plan
    sessions     --session-min (60) with --pause-min (20) between for look-out and hands; --stretch-h: so many hours with
                 the needle, then a rest of --rest-h (6) hours
    patch        (length + 2 overlap) x (width + 2 overlap) x sides x layers; tear width 20 mm, overlap 50 mm, 2 sides,
                 1 layer (near the leech 2). As cut, each cloth is 20 mm larger all round than the one before
    sewn round   the edges of those cloths as a seam, --edge-rows round each (1; a single cloth 2); not in the hours above
  Cloths, m of one row an hour, slow / likely / fast (default tough-laminate; common practice, no source):
${CLOTHS}

  slatch seam --length-m 0.9 --rows 2 --cloth tough-laminate --overlap-mm 100 --layers 2
`;

/** `slatch seam`. */
export const seamCommand = command({ name: 'seam', help: HELP, run: printSeam });

function printSeam(args: readonly string[], io: CommandIo): Promise<number> {
  const request = readSeamRequest(args);
  if (!request.ok) {
    reportProblems(io, request.problems);
    return Promise.resolve(1);
  }
  const figures = seamFigures(request.value);
  io.out(request.value.asJson ? `${JSON.stringify(figures, null, 2)}\n` : seamText(figures));
  return Promise.resolve(0);
}
