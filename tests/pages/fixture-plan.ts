/** An invented plan for developing and testing pages: a torn leech, a broken batten, a seized bolt, a worn block. */
import type { JobPicture, Plan, PlanEntry, PlannedJob, PlanPicture } from '../../lib/planner/index.ts';
import { formatUtc, MS_PER_MIN } from '../../lib/time/index.ts';
import { jobTexts } from './fixture-jobs.table.ts';
import { factorsByJob, sleepFirstByJob } from './fixture-watch.table.ts';
import { watchOf } from './fixture-watch.ts';
import { at, deckWind, skyAndSea, slotEpochMs, startSpans } from './fixture-weather.ts';

const shownJobs = jobTexts.map((job) => ({ job, picture: jobPicture(job) }));
type FixtureJob = (typeof jobTexts)[number];

function jobPicture(job: FixtureJob): JobPicture {
  const { wind, gust } = deckWind(job.handling);
  const picture = { deckWindKn: wind, limits: job.limits };
  return {
    jobId: job.id,
    handling: job.handling,
    deckWindKn: wind,
    deckGustKn: gust,
    limits: job.limits,
    leastAlertnessPoints: job.leastAlertnessPoints,
    windows: startSpans({
      picture,
      referenceMin: job.referenceMin,
      needsDay: job.needsDay,
      conditional: job.status === 'conditional',
    }),
    probabilitySd: job.probability === null ? null : 0.034,
    plannedMin: job.startUtc === null ? null : job.plannedMin,
    referenceMin: job.startUtc === null ? null : job.referenceMin,
    lostNm: job.startUtc === null ? null : job.lostNm,
  };
}

const endOf = (startUtc: string, minutes: number): string => formatUtc(at(startUtc) + minutes * MS_PER_MIN);

function plannedJob({ job, picture }: { job: FixtureJob; picture: JobPicture }): PlannedJob {
  const around = picture.windows.find(
    (span) =>
      job.startUtc !== null && span.firstStartEpochMs <= at(job.startUtc) && at(job.startUtc) <= span.lastStartEpochMs,
  );
  return {
    jobId: job.id,
    name: job.name,
    status: job.status,
    startUtc: job.startUtc,
    endUtc: job.startUtc === null ? null : endOf(job.startUtc, job.plannedMin),
    handling: job.startUtc === null ? null : job.handling,
    startBetween:
      around === undefined
        ? null
        : { firstUtc: formatUtc(around.firstStartEpochMs), lastUtc: formatUtc(around.lastStartEpochMs) },
    probability: job.probability,
    marginSd: job.probability === null ? null : 1.4,
    bindingLimit: job.bindingLimit,
    unknownLimits: job.unknownLimits,
    standardCriterion: null,
    why: job.why,
    whyNotEarlier: job.whyNotEarlier,
    sleepFirst: sleepFirstByJob[job.id] ?? null,
    notEarlier: [],
    doneInsideLimitsProbability: job.doneInsideLimitsProbability,
    coreInterruptedProbability: job.doneInsideLimitsProbability === null ? null : 0.042,
    fallback: job.fallback,
    decideByUtc: job.decideByUtc,
    fallbackPlan: job.fallbackPlan,
    goCheck: job.goCheck,
    startCheck: null,
    nearestMiss: job.nearestMiss,
    wouldBuy: job.wouldBuy,
  };
}

const workOf = (job: FixtureJob | null): Pick<PlanEntry, 'factors' | 'factorsTogetherRatio'> =>
  job === null
    ? { factors: [], factorsTogetherRatio: null }
    : (factorsByJob[job.id] ?? { factors: [], factorsTogetherRatio: 1 });

function entry(startUtc: string, endUtc: string, job: FixtureJob | null): PlanEntry {
  return {
    ...workOf(job),
    startUtc,
    endUtc,
    kind: job === null ? 'sleep' : 'work',
    jobId: job?.id ?? null,
    stepIds: job === null ? [] : ['all'],
    handling: job?.handling ?? 'hold-course',
    sailState: 'headsail-only',
    place: job?.place ?? null,
    lat: -35.2,
    lon: 179.4,
    deckWindKn: job === null ? null : { p10: 6, p50: 9, p90: 12 },
    light: 'day',
    kssStart: 4,
    kssEnd: 5,
    settleMin: 0,
    restAfterMin: 0,
  };
}

const sleeps: readonly (readonly [string, string])[] = [
  ['2026-05-27T20:40Z', '2026-05-27T23:40Z'],
  ['2026-05-28T10:00Z', '2026-05-28T12:30Z'],
  ['2026-05-28T13:00Z', '2026-05-28T16:00Z'],
  ['2026-05-28T16:30Z', '2026-05-28T18:30Z'],
  ['2026-05-29T08:30Z', '2026-05-29T11:30Z'],
  ['2026-05-29T12:00Z', '2026-05-29T15:00Z'],
  ['2026-05-30T09:00Z', '2026-05-30T12:00Z'],
  ['2026-05-30T12:30Z', '2026-05-30T15:30Z'],
];

const entries = [
  ...sleeps.map(([startUtc, endUtc]) => entry(startUtc, endUtc, null)),
  ...jobTexts.flatMap((job) =>
    job.startUtc === null ? [] : [entry(job.startUtc, endOf(job.startUtc, job.plannedMin), job)],
  ),
].toSorted((a, b) => at(a.startUtc) - at(b.startUtc));

export const plan: Plan = {
  planNumber: null,
  seed: 1,
  madeAtUtc: '2026-05-27T20:12Z',
  passageName: 'Torn leech, east of the date line',
  forecast: {
    baseTimeUtc: '2026-05-27T18:00Z',
    ageH: 2.2,
    members: 21,
    missing: ['rain'],
    endUtc: formatUtc(slotEpochMs.at(-1) ?? 0),
  },
  entries,
  jobs: shownJobs.map(plannedJob),
  totals: {
    allDoneProbability: 0.75,
    allDoneProbabilitySd: 0.034,
    deckH: 9.4,
    lostNm: 38.4,
    sleepHPer24H: 5.7,
    unwatchedMin: 940,
    expectedJobsDone: 6.38,
  },
  waiting: {
    untilUtc: '2026-05-28T02:12Z',
    plannedJobIds: ['oil', 'make', 'stitch', 'bolt', 'fit'],
    allDoneProbability: 0.62,
    allDoneProbabilityNow: 0.78,
    text: 'Beginning as planned keeps 7 jobs in 78 of 100 of the scenarios searched; waiting for the next forecast (Thu 28 May 14:12) leaves 5 in 62 of 100.',
  },
  standing: null,
  firstFair: { allDoneProbability: 0.235, plannedJobIds: ['drop', 'oil', 'make', 'bolt', 'fit'] },
  solver: { optimal: true, gap: 0, costGapShare: 0, labels: 18_212 },
  watch: watchOf(entries, skyAndSea),
  cautions: [
    'On deck: clipped on before the hatch, at the work and on the way back.',
    'Sails come down with a hand on the halyard; nobody stands under the headboard.',
    'Blades and needles are closed or stuck before every hand-hold.',
  ],
};

export const picture: PlanPicture = { ...skyAndSea, jobs: shownJobs.map((shown) => shown.picture) };
