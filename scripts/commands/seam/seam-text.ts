import { PACE_LOSS, PATCH_OVERLAP_MM, USUAL_PITCH_MM, USUAL_WIDTH_MM } from '../../../lib/stock/index.ts';
import type { SeamFigures } from './seam-figures.ts';

/** The figures of a seam as lines to read. */
export const seamText = (of: SeamFigures): string => [...seamLines(of), '', ...patchLines(of), ''].join('\n');

const LABEL_WIDTH = 19;
const line = (label: string, text: string): string => `${label.padEnd(LABEL_WIDTH)}${text}`;
const more = (text: string): string => line('', text);
const hoursText = ({ leastH, likelyH, mostH }: { leastH: number; likelyH: number; mostH: number }): string =>
  `${likelyH.toFixed(1)} h likely, ${leastH.toFixed(1)} h least, ${mostH.toFixed(1)} h most`;
const estimateText = ({ leastMin, likelyMin, mostMin }: SeamFigures['setUpMin']): string =>
  `${leastMin}/${likelyMin}/${mostMin} min`;
const counted = (count: number, one: string, many: string = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

function seamLines(of: SeamFigures): readonly string[] {
  const { slow, likely, fast } = of.rateMPerH;
  const doubled = of.strand === 'double' ? `doubled in the needle (single: ${of.twineSingleM.toFixed(1)} m)` : 'single';
  return [
    line('Seam', `${of.lengthM.toFixed(2)} m in ${counted(of.rows, 'row')}: ${of.sewnM.toFixed(2)} m to sew`),
    line('Cloth', `${of.clothName} (${of.cloth})`),
    line('Rate', `${digits(likely)} m of row an hour likely, ${digits(slow)} slow, ${digits(fast)} fast`),
    more(of.rateProvenance),
    line('Stitches', `${of.stitches}: herringbone, one each ${of.pitchMm} mm, ${of.widthMm} mm wide`),
    ...unusualStitch(of),
    line('Locks', `${of.locks}: one each 100 mm`),
    line('Holes', `${of.piercesPerInch.toFixed(0)} an inch; a machine seam of three rows has 25 to 35`),
    line('Twine', `${of.twineM.toFixed(1)} m ${doubled}, with 15 % for ends`),
    line('Needlefuls', `${of.needlefuls} of an arm's length (0.9 m)`),
    line('Needles', `${of.needles} at hand, ${needleText(of)} thick; their numbers run both ways`),
    line('One row', hoursText(of.hoursPerRow)),
    line('With the needle', hoursText(of.hours)),
    more(of.paceLoss ? `slower as it goes on: ${paceLossText()}` : 'without pace loss (--pace-loss counts it)'),
    line('Set-up, finish', `${estimateText(of.setUpMin)} and ${estimateText(of.finishMin)}, least/likely/most`),
    line('Whole job', totalText(of)),
    more('set-up, needle and finish by PERT, correlated 0.5; pauses, cold, gloves, dark and motion on top'),
    line('Sessions', sessionText(of)),
    line('From start to end', hoursText(of.elapsed)),
  ];
}

/** `x1.1 after 1 h, x1.25 after 2 h …`. */
export const paceLossText = (): string =>
  PACE_LOSS.slice(1)
    .map(({ afterMin, factorRatio }) => `x${factorRatio} after ${afterMin / 60} h`)
    .join(', ');

const digits = (rateMPerH: number): string => String(Math.round(rateMPerH * 10000) / 10000);

const needleText = ({ needleDiameterMm: { least, most } }: SeamFigures): string =>
  least === most ? `${least.toFixed(1)} mm` : `${least.toFixed(1)} to ${most.toFixed(1)} mm`;

const totalText = ({ totals }: SeamFigures): string =>
  `P50 ${totals.p50H.toFixed(1)} h, P80 ${totals.p80H.toFixed(1)} h, P90 ${totals.p90H.toFixed(1)} h`;

function sessionText(of: SeamFigures): string {
  const rests = of.longRests === 0 ? '' : `, ${counted(of.longRests, 'long rest')} of ${of.restH} h`;
  return `${of.sessions} of ${of.sessionMin} min at most, ${of.pauseMin} min between for look-out and hands${rests}`;
}

/** A word where pitch or width lies outside what is usual. */
function unusualStitch({ pitchMm, widthMm }: SeamFigures): readonly string[] {
  const isUsual = (value: number, { leastMm, mostMm }: { leastMm: number; mostMm: number }): boolean =>
    value >= leastMm && value <= mostMm;
  return isUsual(pitchMm, USUAL_PITCH_MM) && isUsual(widthMm, USUAL_WIDTH_MM)
    ? []
    : [
        more(
          `usual: pitch ${USUAL_PITCH_MM.leastMm} to ${USUAL_PITCH_MM.mostMm} mm, width ${USUAL_WIDTH_MM.leastMm} to ${USUAL_WIDTH_MM.mostMm} mm`,
        ),
      ];
}

function patchLines({ patch, patchAreaM2, cloth }: SeamFigures): readonly string[] {
  const { light, loaded } = PATCH_OVERLAP_MM;
  const isShort = patch.overlapMm < light.leastMm;
  return [
    line(
      'Patch over it',
      `${patchAreaM2.toFixed(2)} m²: tear ${patch.tearWidthMm} mm wide, overlap ${patch.overlapMm} mm, ${counted(patch.sides, 'side')}, ${counted(patch.layers, 'layer')} each`,
    ),
    more(
      `${isShort ? 'too short an overlap: ' : 'overlap '}${light.leastMm} mm at least, ${loaded.leastMm} to ${loaded.mostMm} mm where the sail is loaded`,
    ),
    ...patch.cloths.map((piece) =>
      line(
        `  side ${piece.side} layer ${piece.layer}`,
        `${piece.lengthMm.toFixed(0)} x ${piece.widthMm.toFixed(0)} mm, corners ${piece.cornerRadiusMm.toFixed(0)} mm round; ${stuffText(piece.stuff)}`,
      ),
    ),
    line(
      'As cut',
      `${patch.cutAreaM2.toFixed(2)} m², each cloth 20 mm larger all round than the one before: no two edges meet`,
    ),
    line('If glued', `${patch.glueKg.toFixed(2)} kg of adhesive`),
    line(
      'If sewn round',
      patch.edgeRows === 0
        ? 'not asked for'
        : `${patch.edgeSewnM.toFixed(1)} m more, ${counted(patch.edgeRows, 'row')} round each cloth, at the rate of ${cloth}:`,
    ),
    ...(patch.edgeRows === 0 ? [] : [more(hoursText(patch.edgeHours))]),
  ];
}

function stuffText(stuff: SeamFigures['patch']['cloths'][number]['stuff']): string {
  if (stuff.kind === 'tape') return `${stuff.lengthM.toFixed(2)} m of ${stuff.widthMm} mm tape`;
  if (stuff.kind === 'cloth') return `from cloth ${stuff.leastWidthMm} mm wide or more`;
  return 'wider than any roll: join two widths';
}
