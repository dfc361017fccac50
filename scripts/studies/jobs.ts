import type { Uniform } from './error-paths.ts';
import { between } from './weather-pattern.ts';

/** An own job of a passage file, as far as studies use one. */
type StudyJob = Readonly<Record<string, unknown>>;

interface JobKind {
  readonly id: string;
  readonly place: string;
  readonly effort: string;
  readonly likelyMin: readonly [least: number, most: number];
  readonly deckWindNoGoKn: readonly [least: number, most: number];
  readonly seaNoGoM: readonly [least: number, most: number];
  readonly daylight: 'required' | 'preferred' | 'not-needed';
  readonly isStoppable: boolean;
}

const KINDS: readonly JobKind[] = [
  kind('tender', 'deck', { likelyMin: [60, 140], deckWindNoGoKn: [9, 12], seaNoGoM: [1.6, 2.2], daylight: 'required' }),
  kind('deck', 'deck', { likelyMin: [40, 120], deckWindNoGoKn: [11, 15], seaNoGoM: [1.8, 2.6], daylight: 'preferred' }),
  kind('bow', 'foredeck', {
    likelyMin: [30, 80],
    deckWindNoGoKn: [11, 15],
    seaNoGoM: [1.7, 2.4],
    daylight: 'required',
    effort: 'heavy',
  }),
  kind('mast', 'aloft', {
    likelyMin: [50, 90],
    deckWindNoGoKn: [10, 13],
    seaNoGoM: [1.5, 2.1],
    daylight: 'required',
    effort: 'heavy',
  }),
  kind('sewing', 'cockpit', {
    likelyMin: [150, 260],
    deckWindNoGoKn: [13, 18],
    seaNoGoM: [2, 3],
    daylight: 'preferred',
    isStoppable: true,
  }),
  kind('bench', 'below', {
    likelyMin: [60, 120],
    deckWindNoGoKn: [17, 22],
    seaNoGoM: [2, 3],
    daylight: 'not-needed',
  }),
];

function kind(
  id: string,
  place: string,
  of: Pick<JobKind, 'likelyMin' | 'deckWindNoGoKn' | 'seaNoGoM' | 'daylight'> & Partial<JobKind>,
): JobKind {
  return { effort: 'moderate', isStoppable: false, ...of, id, place };
}

/** So many jobs, of any kinds; about three in ten come after the one before, a third of those after a wait. */
export function drawJobs(uniform: Uniform, count: { readonly least: number; readonly most: number }): StudyJob[] {
  const jobCount = Math.floor(between(uniform, count.least, count.most + 1));
  const jobs: { id: string; job: StudyJob }[] = [];
  for (let k = 0; k < jobCount; k++) {
    const of = KINDS[Math.floor(uniform() * KINDS.length)];
    if (of === undefined) throw new Error('a draw below 1');
    const id = `${of.id}-${k}`;
    const before = jobs.at(-1);
    const after = uniform() < 0.3 && before !== undefined ? [before.id] : [];
    jobs.push({ id, job: { ...drawJob(uniform, of), id, after } });
  }
  return jobs.map(({ job }) => job);
}

function drawJob(uniform: Uniform, of: JobKind): StudyJob {
  const likelyMin = tens(between(uniform, ...of.likelyMin));
  const noGoKn = between(uniform, ...of.deckWindNoGoKn);
  const noGoM = between(uniform, ...of.seaNoGoM);
  const step = {
    id: 'work',
    name: of.id,
    place: of.place,
    effort: of.effort,
    stop: of.isStoppable ? 'anywhere' : 'at-end',
    work: { leastMin: 0.7 * likelyMin, likelyMin, mostMin: between(uniform, 1.4, 2.1) * likelyMin },
    limits: { deckWindKn: levels(noGoKn), seaHeightM: levels(noGoM), daylight: of.daylight },
    waitAfter: uniform() < 0.3 ? { kind: 'cure', leastH: 1, likelyH: 2, mostH: 3 } : null,
  };
  return {
    name: of.id,
    priority: 3 + Math.floor(uniform() * 7),
    handlings: uniform() < 0.5 ? ['hold-course', 'run-off'] : ['hold-course'],
    steps: [step],
  };
}

const tens = (lengthMin: number): number => 10 * Math.round(lengthMin / 10);

const levels = (noGo: number): { ideal: number; caution: number; noGo: number } => ({
  ideal: 0.6 * noGo,
  caution: 0.8 * noGo,
  noGo,
});
