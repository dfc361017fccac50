/** Invented answers about the windows of the fixture's jobs, in the same hours as the fixture's plan. */
import type { AskedBlock, LimitLook, StartLook, WindowsPicture } from '../../lib/planner/index.ts';
import { MS_PER_H, MS_PER_MIN, type SlotGrid } from '../../lib/time/index.ts';
import type { BlockWindow, LimitMargin } from '../../lib/windows/index.ts';
import type { LookAnswer, WindowsAnswer } from '../../server/planning-messages.ts';
import type { PassageView } from '../../server/presenters/plan-standing.ts';
import type { ShownNames } from '../../server/presenters/shown-names.ts';
import { jobTexts } from './fixture-jobs.table.ts';
import { picture, plan } from './fixture-plan.ts';

const names: ShownNames = {
  jobs: jobTexts.map(({ id, name, handling }) => ({
    jobId: id,
    name,
    after: id === 'stitch' ? ['drop'] : [],
    parts:
      id === 'make'
        ? [
            { steps: [{ id: 'all', name: 'Cut and fit dry' }], inSessions: false, handlingIds: [handling] },
            { steps: [{ id: 'glue', name: 'Glue' }], inSessions: false, handlingIds: [handling] },
          ]
        : [
            {
              steps: [{ id: 'all', name: 'All of it' }],
              inSessions: id === 'stitch',
              handlingIds: handling === 'run-off' ? ['run-off', 'hold-course'] : [handling],
            },
          ],
  })),
  sailStates: { 'headsail-only': 'Headsail only' },
};

export const view: PassageView = { plan, picture, names, before: null, isStoppedEarly: false };

const firstEpochMs = picture.slotEpochMs[0] ?? 0;
const grid: SlotGrid = { firstEpochMs, slotMin: 10, slotCount: picture.slotEpochMs.length };
const slotOf = (epochMs: number): number => Math.round((epochMs - firstEpochMs) / (10 * MS_PER_MIN));

const margin = (change: Partial<LimitMargin> = {}): LimitMargin => ({
  limit: 'deck-wind',
  observed: 13.81,
  required: 18,
  unit: 'kn',
  margin: 4.19,
  marginSd: 2.28,
  atEpochMs: firstEpochMs + 20 * 60 * MS_PER_MIN,
  standard: { alphaRatio: 0.714, met: false },
  ...change,
});

function jobPictureOf(jobId: string): (typeof picture.jobs)[number] {
  const found = picture.jobs.find((job) => job.jobId === jobId);
  if (found === undefined) throw new Error(`no job ${jobId} in the fixture`);
  return found;
}

function blockWindows({ jobId, handlingId, blockIndex }: AskedBlock): BlockWindow[] {
  return jobPictureOf(jobId).windows.map((span) => ({
    jobId,
    blockIndex,
    handlingId,
    sailStateId: 'headsail-only',
    firstStartSlot: slotOf(span.firstStartEpochMs),
    lastStartSlot: slotOf(span.lastStartEpochMs),
    bestStartSlot: slotOf(span.firstStartEpochMs),
    surestFirstStartSlot: null,
    surestLastStartSlot: null,
    probability: 0.876,
    binding: margin(),
    marginSd: 2.28,
    margins: [margin(), margin({ limit: 'daylight', unit: 'light', margin: 1, marginSd: null, standard: null })],
    plannedMin: 50,
    referenceSlots: 8,
    conditional: span.conditional,
    unknownLimits: span.conditional ? ['rain'] : [],
  }));
}

function windowsPictureOf(asked: AskedBlock): WindowsPicture {
  const job = jobPictureOf(asked.jobId);
  const { slotEpochMs, light, seaHeightM, rainMmPerH, airC } = picture;
  const isFair = (epochMs: number): boolean =>
    job.windows.some(({ firstStartEpochMs: from, lastStartEpochMs: to }) => from <= epochMs && epochMs <= to);
  const startProbability = Float32Array.from(slotEpochMs, (epochMs, i) => {
    if (i > slotEpochMs.length - 8) return Number.NaN;
    return isFair(epochMs) ? 0.876 : 0.3 + 0.0001 * i;
  });
  const starts = Array.from(slotEpochMs.subarray(0, -8), (atEpochMs, i) => ({
    atEpochMs,
    probability: startProbability[i] ?? 0,
    binding: margin(isFair(atEpochMs) ? { atEpochMs } : { atEpochMs, observed: 20.2, margin: -2.2, marginSd: -1.1 }),
    unknownLimits: asked.jobId === 'patch' ? ['rain'] : [],
  }));
  return {
    asked,
    sailStateId: 'headsail-only',
    slotEpochMs,
    light,
    moon: picture.hours.moon,
    hours: picture.hours,
    deckWindKn: job.deckWindKn,
    deckGustKn: {
      p10: job.deckGustKn.map((kn) => kn - 3),
      p50: job.deckGustKn,
      p90: job.deckGustKn.map((kn) => kn + 3),
    },
    seaHeightM,
    rainMmPerH,
    airC,
    visibilityNm: null,
    limits: {
      ...job.limits,
      trueWindNoGoKn: 30,
      handlingSeaNoGoM: 4,
      daylight: 'required',
      visibilityLeastNm: asked.jobId === 'bolt' ? 2 : null,
      seaWaterLeastC: asked.jobId === 'bolt' ? 16.5 : null,
      steepnessNoGoRatio: asked.jobId === 'bolt' ? 0.02 : null,
      dryBeforeH: null,
    },
    leastAlertnessPoints: job.leastAlertnessPoints,
    startProbability,
    wantedProbability: picture.wantedProbability,
    hourStarts: starts.filter(({ atEpochMs }) => atEpochMs % MS_PER_H === 0),
    surestStart: starts.toSorted((one, other) => other.probability - one.probability)[0] ?? null,
  };
}

export const windowsAnswer = (asked: AskedBlock): WindowsAnswer => ({
  kind: 'windows',
  picture: windowsPictureOf(asked),
  windows: { jobId: asked.jobId, windows: blockWindows(asked), nearestMisses: [] },
  grid,
});

/** A start that falls short: the gust breaks in 35 of 100, first 40 min in; rain is unknown for the patch. */
export function lookAnswer(asked: AskedBlock & { readonly startEpochMs: number }): LookAnswer {
  const { startEpochMs, ...block } = asked;
  const limits: LimitLook[] = [
    {
      ...margin({
        limit: 'deck-gust',
        observed: 25.2,
        required: 24,
        margin: -1.2,
        marginSd: -0.61,
        atEpochMs: startEpochMs,
      }),
      firstBrokenEpochMs: startEpochMs + 40 * MS_PER_MIN,
      brokenShare: 0.35,
    },
    { ...margin(), firstBrokenEpochMs: null, brokenShare: 0 },
  ];
  const look: StartLook = {
    asked: { ...block, startSlot: slotOf(startEpochMs) },
    startEpochMs,
    refused: null,
    plannedMin: 50,
    referenceMin: 80,
    probability: 0.61,
    probabilitySd: 0.067,
    limits,
    unknownLimits: asked.jobId === 'patch' ? ['rain'] : [],
    tooSlowShare: 0.04,
    deckWindKn: { p10: 10.2, p50: 14, p90: 17.8 },
    lightAtStart: 'day',
    lightAtEnd: 'civil',
    position: { lat: -35.2, lon: 179.4 },
    afterJobIds: names.jobs.find(({ jobId }) => jobId === asked.jobId)?.after ?? [],
  };
  return { kind: 'look', look };
}
