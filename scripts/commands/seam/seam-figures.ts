import { durationQuantiles, pertDuration, sumDuration } from '../../../lib/jobs/index.ts';
import {
  clothAreaM2,
  edgeM,
  edgeSeam,
  glueKg,
  needleMinutes,
  patchAreaM2,
  patchCloths,
  patchStuff,
  piercesPerInchCount,
  SEAM_FINISH,
  SEAM_SET_UP,
  seamWork,
  USUAL_STITCH,
  type MinutesEstimate,
  type PatchStuff,
} from '../../../lib/stock/index.ts';
import type { SeamRequest } from './read-arguments.ts';

interface Hours {
  readonly leastH: number;
  readonly likelyH: number;
  readonly mostH: number;
}

/** All that is printed about a seam; the `--json` of the command as it stands. */
export type SeamFigures = ReturnType<typeof seamFigures>;

/** Works out a request. Hours of the whole job by PERT: set-up, needle and finishing, correlated 0.5. */
export function seamFigures(request: SeamRequest) {
  const { plan } = request;
  const { seam, rate } = plan;
  const { pitchMm, widthMm, thicknessMm } = plan.geometry ?? USUAL_STITCH;
  const work = seamWork(plan);
  const single = seamWork({ ...plan, strand: 'single' });
  return {
    lengthM: rounded(seam.lengthM),
    rows: seam.rowCount,
    sewnM: rounded(seam.lengthM * seam.rowCount),
    cloth: seam.cloth,
    clothName: rate.name,
    rateMPerH: { slow: rounded(rate.slowMPerH), likely: rounded(rate.likelyMPerH), fast: rounded(rate.fastMPerH) },
    rateProvenance: request.isOwnRate ? 'your own rate; slow and fast in the proportion of the cloth' : rate.provenance,
    pitchMm,
    widthMm,
    thicknessMm,
    stitches: work.stitchCount,
    locks: work.lockCount,
    piercesPerInch: rounded(piercesPerInchCount(seam.rowCount, pitchMm)),
    strand: plan.strand,
    twineM: rounded(work.twineM),
    twineSingleM: rounded(single.twineM),
    needlefuls: work.needlefulCount,
    needles: work.needleCount,
    needleDiameterMm: { least: rate.needleLeastMm, most: rate.needleMostMm },
    hoursPerRow: hours(work.row),
    needleH: rounded(work.needle.likelyMin / 60),
    hours: hours(work.needle),
    paceLoss: plan.hasPaceLoss,
    ...sessions(request, work),
    setUpMin: SEAM_SET_UP,
    finishMin: SEAM_FINISH,
    totals: totals(work.needle),
    patchAreaM2: rounded(patchAreaM2(request.patch)),
    patch: patchFigures(request),
  };
}

function sessions({ plan: { rhythm } }: SeamRequest, work: ReturnType<typeof seamWork>) {
  const bothEndsMin = (end: keyof MinutesEstimate): number => SEAM_SET_UP[end] + SEAM_FINISH[end];
  return {
    sessions: work.likely.sessionCount,
    longRests: work.likely.restCount,
    sessionMin: rhythm.sessionMin,
    pauseMin: rhythm.pauseMin,
    stretchH: rhythm.stretchMin === null ? null : rounded(rhythm.stretchMin / 60),
    restH: rounded(rhythm.restMin / 60),
    /** Set-up, sewing with pauses and rests, finishing. */
    elapsed: hours({
      leastMin: work.least.elapsedMin + bothEndsMin('leastMin'),
      likelyMin: work.likely.elapsedMin + bothEndsMin('likelyMin'),
      mostMin: work.most.elapsedMin + bothEndsMin('mostMin'),
    }),
  };
}

function totals(needle: MinutesEstimate) {
  const whole = sumDuration([SEAM_SET_UP, needle, SEAM_FINISH].map(pertDuration));
  const { p50Min, p80Min, p90Min } = durationQuantiles(whole);
  return {
    meanH: rounded(whole.meanMin / 60),
    p50H: rounded(p50Min / 60),
    p80H: rounded(p80Min / 60),
    p90H: rounded(p90Min / 60),
  };
}

function patchFigures({ plan, patch, edgeRowCount }: SeamRequest) {
  const cloths = patchCloths(patch);
  const edge = edgeSeam(cloths, edgeRowCount, plan.seam.cloth);
  return {
    tearWidthMm: rounded(patch.tearWidthM * 1000),
    overlapMm: rounded(patch.overlapM * 1000),
    sides: patch.sideCount,
    layers: patch.layersPerSideCount,
    cloths: cloths.map((piece) => ({
      side: piece.sideNumber,
      layer: piece.layerNumber,
      lengthMm: rounded(piece.lengthM * 1000),
      widthMm: rounded(piece.widthM * 1000),
      cornerRadiusMm: rounded(piece.cornerRadiusM * 1000),
      edgeM: rounded(edgeM(piece)),
      stuff: roundedStuff(patchStuff(piece)),
    })),
    cutAreaM2: rounded(clothAreaM2(cloths)),
    glueKg: rounded(glueKg(cloths)),
    edgeRows: edgeRowCount,
    edgeSewnM: rounded(edge.lengthM * edge.rowCount),
    edgeHours: hours(needleMinutes(edge, plan.rate)),
  };
}

const roundedStuff = (stuff: PatchStuff): PatchStuff =>
  stuff.kind === 'tape' ? { ...stuff, lengthM: rounded(stuff.lengthM) } : stuff;

const hours = ({ leastMin, likelyMin, mostMin }: MinutesEstimate): Hours => ({
  leastH: rounded(leastMin / 60),
  likelyH: rounded(likelyMin / 60),
  mostH: rounded(mostMin / 60),
});

/** Six decimals: binary fractions are nobody's measure. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;
