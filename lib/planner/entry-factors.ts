import { DEFAULT_TIME_FACTORS, tiredFactorRatio, type TimeFactorSettings, type Watchkeeper } from '../person/index.ts';
import type { Job } from '../jobs/index.ts';
import { FACTOR_IDS, type FactorId, type StepFactors } from '../windows/index.ts';
import { ownPaceText } from './own-pace.ts';
import type { EntryFactor } from './plan.ts';
import type { ReportedEntry } from './report.ts';
import { rounded } from './rounded.ts';

/** A factor this near to 1 is not worth a line. */
const NEGLIGIBLE_RATIO = 0.005;

const NAMES: Readonly<Record<'weather' | FactorId, string>> = {
  weather: 'wind and sea',
  dark: 'darkness',
  cold: 'cold hands',
  gloves: 'gloves',
  heat: 'heat',
  'look-out': 'looking round',
  tired: 'tiredness',
  'own-pace': 'own pace',
};

/** Coefficients of the watchkeeper that a factor is made with; a changed one makes the factor their own. */
const COEFFICIENTS: Partial<Readonly<Record<FactorId, readonly (keyof TimeFactorSettings)[]>>> = {
  cold: ['coldGrossPerC', 'coldMediumPerC', 'coldFinePerC', 'wetColderC'],
  gloves: ['glovesThinRatio', 'glovesThickRatio'],
  heat: ['assumedHumidityRatio', 'wbgtAdjustC'],
  tired: ['tiredToKss6Ratio', 'tiredToKss8Ratio'],
};

const BASES: Readonly<Record<'weather' | FactorId, EntryFactor['basis']>> = {
  weather: 'our choice',
  dark: 'our choice',
  cold: 'our choice',
  gloves: 'our choice',
  heat: 'published',
  'look-out': 'common practice',
  tired: 'our choice',
  'own-pace': 'your own',
};

/** Why the work of an entry takes longer than its time at pace 1. */
export function entryFactors(
  entry: ReportedEntry,
  watchkeeper: Watchkeeper,
  job: Job,
): { factors: EntryFactor[]; factorsTogetherRatio: number } {
  const steps = entry.factorsOf();
  const own = watchkeeper.timeFactors;
  const mean = (of: (step: StepFactors) => number): number =>
    steps.reduce((sum, step) => sum + step.workShare * of(step), 0);
  const factor = (id: 'weather' | FactorId, ratio: number): EntryFactor => ({
    id,
    name: NAMES[id],
    ratio: rounded(ratio, 3),
    basis: isEdited(id, own) ? 'your own' : BASES[id],
    text: figuresText(id, { entry, steps, watchkeeper, job }),
  });
  const { plannedMin, resumeMin, workMin } = entry.placed;
  return {
    factors: [
      factor(
        'weather',
        mean(({ weatherRatio }) => weatherRatio),
      ),
      ...FACTOR_IDS.map((id) =>
        factor(
          id,
          mean(({ ratios }) => ratios[id]),
        ),
      ),
    ].filter(({ ratio }) => Math.abs(ratio - 1) > NEGLIGIBLE_RATIO),
    factorsTogetherRatio: rounded((plannedMin - resumeMin) / workMin, 3),
  };
}

function isEdited(id: 'weather' | FactorId, own: TimeFactorSettings): boolean {
  const keys = id === 'weather' ? [] : (COEFFICIENTS[id] ?? []);
  return keys.some((key) => own[key] !== DEFAULT_TIME_FACTORS[key]);
}

/** The figures a factor was made from, for the step it weighs most on. */
function figuresText(id: 'weather' | FactorId, of: Omit<Weighed, 'worst'>): string {
  const [first] = of.steps;
  if (first === undefined) return '';
  const worst = of.steps.reduce((a, b) => (ratioOf(b, id) > ratioOf(a, id) ? b : a), first);
  return FIGURES[id]({ ...of, worst });
}

interface Weighed {
  readonly entry: ReportedEntry;
  readonly steps: readonly StepFactors[];
  readonly watchkeeper: Watchkeeper;
  readonly job: Job;
  /** The step the factor weighs most on. */
  readonly worst: StepFactors;
}

const FIGURES: Readonly<Record<'weather' | FactorId, (of: Weighed) => string>> = {
  weather: () => 'wind over the deck and sea between ideal and no-go',
  dark: ({ worst: { step } }) => `in the dark "${step.name}" takes ${step.darkFactorRatio} times as long`,
  cold: ({ worst }) => `hands feel ${worst.feltC.toFixed(0)} °C${worst.wet ? ', wet' : ''}, ${worst.step.hands} work`,
  gloves: ({ watchkeeper }) => `${watchkeeper.gloves} gloves`,
  heat: ({ worst }) => `WBGT about ${worst.wbgtC.toFixed(0)} °C, ${worst.step.effort} work`,
  'look-out': ({ worst }) =>
    `a look round every ${Math.floor(worst.lookoutMin)} min${worst.step.place === 'below' ? ', climbing out for it' : ''}`,
  tired: ({ entry, watchkeeper }) => tiredText(entry, watchkeeper),
  'own-pace': ({ steps, watchkeeper, job }) =>
    ownPaceText(
      job,
      steps.map(({ step }) => step.id),
      watchkeeper,
    ),
};

/** The search reckons with a band of tiredness; sleep in free hours may leave less of it. */
function tiredText({ placed }: ReportedEntry, { timeFactors }: Watchkeeper): string {
  const expected = `sleepiness ${placed.kssStart.toFixed(1)} of 9`;
  const isFresher = (tiredFactorRatio(placed.kssStart, timeFactors) ?? Infinity) < placed.tiredRatio - 1e-9;
  return isFresher ? `reckoned for more tiredness than expected (${expected}), to be safe` : `${expected} at its start`;
}

const ratioOf = ({ weatherRatio, ratios }: StepFactors, id: 'weather' | FactorId): number =>
  id === 'weather' ? weatherRatio : ratios[id];
