import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { JOB_LIBRARY, libraryJob, type Job, type Step } from '../../lib/jobs/index.ts';
import { golden } from './golden.ts';

const triple = z.tuple([z.number(), z.number(), z.number()]);
const figures = z.strictObject({
  id: z.string(),
  minutes: triple,
  deckWindKn: triple,
  deckGustNoGoKn: z.number().nullable(),
  seaHeightM: triple,
  steepnessNoGoRatio: z.number().nullable(),
  daylight: z.string(),
  rain: z.string(),
  airLeastC: z.number().nullable(),
  seaWaterLeastC: z.number().nullable(),
  /** null: never worked in the dark. */
  darkFactorRatio: z.number().nullable(),
  effort: z.string(),
  waitH: triple.nullable(),
});
const file = z
  .strictObject({
    about: z.record(z.string(), z.string()),
    jobs: z.array(figures),
    together: z.strictObject({ why: z.string(), jobs: z.record(z.string(), z.array(z.string())) }),
    differences: z.array(z.strictObject({ at: z.string(), figure: z.string(), why: z.string() })),
    added: z.array(z.strictObject({ id: z.string(), why: z.string() })),
  })
  .parse(golden('library-figures'));

type Figures = z.infer<typeof figures>;

const LIMITS = [
  'deckWindKn',
  'deckGustNoGoKn',
  'seaHeightM',
  'steepnessNoGoRatio',
  'daylight',
  'rain',
  'airLeastC',
  'seaWaterLeastC',
] as const;

const cardsOf = (job: Job): readonly Figures[] =>
  (file.together.jobs[job.id] ?? [job.id]).flatMap((id) => file.jobs.filter((card) => card.id === id));

const shown = (value: unknown): string => JSON.stringify(value);

/** Figures of a step in which it differs from a card. */
function stepDifferences(step: Step, card: Figures): readonly string[] {
  const { deckWindKn, seaHeightM, ...others } = step.limits;
  const levels = (of: typeof deckWindKn) => of && [of.ideal, of.caution, of.noGo];
  const own = { ...others, deckWindKn: levels(deckWindKn), seaHeightM: levels(seaHeightM) };
  return [
    ...LIMITS.filter((key) => shown(own[key]) !== shown(card[key])).map((key) => `${key} ${shown(own[key])}`),
    ...(card.darkFactorRatio === null || step.darkFactorRatio === card.darkFactorRatio
      ? []
      : [`darkFactorRatio ${step.darkFactorRatio}`]),
    ...(step.effort === card.effort ? [] : [`effort ${step.effort}`]),
  ];
}

const summed = (triples: readonly (readonly number[])[]): readonly number[] =>
  [0, 1, 2].map((index) => Math.round(triples.reduce((sum, values) => sum + (values[index] ?? 0), 0) * 1e3) / 1e3);

/** All figures of a job in which it differs from its cards: a step from the one it is most like. */
function differences(job: Job): readonly { at: string; figure: string }[] {
  const cards = cardsOf(job);
  const minutes = summed(job.steps.map(({ work }) => [work.leastMin, work.likelyMin, work.mostMin]));
  const waits = job.steps.flatMap(({ waitAfter: of }) => (of === null ? [] : [[of.leastH, of.likelyH, of.mostH]]));
  const cardWaits = cards.flatMap(({ waitH }) => (waitH === null ? [] : [waitH]));
  return [
    ...(shown(minutes) === shown(summed(cards.map((card) => card.minutes)))
      ? []
      : [{ at: job.id, figure: `minutes ${shown(minutes)}` }]),
    ...(shown(waits) === shown(cardWaits) ? [] : [{ at: job.id, figure: `waitH ${shown(waits)}` }]),
    ...job.steps.flatMap((step) => {
      const [nearest = []] = cards.map((card) => stepDifferences(step, card)).toSorted((a, b) => a.length - b.length);
      return nearest.map((figure) => ({ at: `${job.id}/${step.id}`, figure }));
    }),
  ];
}

describe('figures of the library', () => {
  it('every card of the collection: a job of the library', () => {
    expect(file.jobs).toHaveLength(59);
    expect(file.jobs.filter(({ id }) => libraryJob(id) === null)).toEqual([]);
  });

  it('jobs without a card: those that are listed, with the reason', () => {
    const without = JOB_LIBRARY.filter((job) => cardsOf(job).length === 0).map(({ id }) => id);
    expect(without.toSorted()).toEqual(file.added.map(({ id }) => id).toSorted());
  });

  it('minutes, limits, light, effort and waits: as on the cards, but for what is listed with its reason', () => {
    const found = JOB_LIBRARY.filter((job) => cardsOf(job).length > 0).flatMap(differences);
    expect(found).toEqual(file.differences.map(({ at, figure }) => ({ at, figure })));
    expect(file.differences.every(({ why }) => why.length > 10)).toBe(true);
  });
});
