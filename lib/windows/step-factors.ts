/** What slows a step besides wind and sea; the same in every scenario. */
import type { Step } from '../jobs/index.ts';
import {
  coldHandsRatio,
  glovesRatio,
  isWetWork,
  lookoutFactorRatio,
  tooColdForFineWork,
  type TooCold,
} from '../person/index.ts';
import type { TableContext, TableStep } from './table-context.ts';
import { paceRatio, type PaceWeather } from './work-factors.ts';

/** In the order they are told in. */
export const FACTOR_IDS = ['dark', 'cold', 'gloves', 'heat', 'look-out', 'tired', 'own-pace'] as const;
export type FactorId = (typeof FACTOR_IDS)[number];

/** Product of all of them for a step of a block begun in slot `i`; NaN: the step is refused there. */
export function stepFactorRatio(
  context: TableContext,
  { step, ownPaceRatio }: Pick<TableStep, 'step' | 'ownPaceRatio'>,
  i: number,
): number {
  return (
    darkRatio(context, step, i) *
    coldRatio(context, step, i) *
    wornGlovesRatio(context, step) *
    heatRatio(context, step, i) *
    lookoutRatio(context, step, i) *
    context.work.tiredRatio *
    ownPaceRatio
  );
}

/** What slows one step at one start, and the figures it follows from. */
export interface StepFactors {
  readonly step: Step;
  /** Share of the block's work that lies in the step. */
  readonly workShare: number;
  /** Pace in wind and sea of the median scenario. */
  readonly weatherRatio: number;
  /** The rest one by one; NaN: refused. */
  readonly ratios: Readonly<Record<FactorId, number>>;
  /** What the hands feel [°C]; NaN: unknown. */
  readonly feltC: number;
  readonly wet: boolean;
  /** null: warm enough for the work. */
  readonly tooCold: TooCold | null;
  /** WBGT where it is worked [°C]; NaN: unknown. */
  readonly wbgtC: number;
  /** Longest time without a look all round. */
  readonly lookoutMin: number;
}

/** The factors of every step of a block begun in slot `i`, one by one. */
export const stepFactorsAt = (context: TableContext, i: number): readonly StepFactors[] =>
  context.steps.map(({ step, workShare, pace, ownPaceRatio }) => ({
    step,
    workShare,
    weatherRatio: paceRatio(pace, medianWeather(context, i)),
    ratios: {
      dark: darkRatio(context, step, i),
      cold: coldRatio(context, step, i),
      gloves: wornGlovesRatio(context, step),
      heat: heatRatio(context, step, i),
      'look-out': lookoutRatio(context, step, i),
      tired: context.work.tiredRatio,
      'own-pace': ownPaceRatio,
    },
    feltC: feltC(context, step, i),
    wet: isWet(context, step, i),
    tooCold: coldRefusal(context, step, i),
    wbgtC: isInSun(context, step, i) ? context.slots.wbgtSunC(i) : context.slots.wbgtShadeC(i),
    lookoutMin: context.slots.lookoutMin(i),
  }));

/** Wind and sea of the median scenario in a slot. */
export const medianWeather = (context: TableContext, i: number): PaceWeather => ({
  deckWindKn: context.medianDeckKn[i] ?? Number.NaN,
  seaHeightM: context.medianSeaM[i] ?? Number.NaN,
  trueWindKn: context.medianWindKn[i] ?? Number.NaN,
});

const isDark = ({ conditions }: TableContext, i: number): boolean => (conditions.light[i] ?? 0) > 1;
const isBelow = (step: Step): boolean => step.place === 'below';
const isInSun = (context: TableContext, step: Step, i: number): boolean => !isBelow(step) && !isDark(context, i);

function darkRatio(context: TableContext, step: Step, i: number): number {
  return isDark(context, i) ? step.darkFactorRatio : 1;
}

/** NaN: too cold for fine work. Below, hands are warm; where air or wind is unknown nothing is assumed of the cold. */
function coldRatio(context: TableContext, step: Step, i: number): number {
  const chillC = feltC(context, step, i);
  if (isBelow(step) || Number.isNaN(chillC)) return 1;
  if (coldRefusal(context, step, i) !== null) return Number.NaN;
  const { workMin } = context.work;
  return coldHandsRatio({ chillC, hands: step.hands, exposureMin: workMin }, context.settings.timeFactors);
}

/** null: not too cold. Unknown air or wind refuses nothing. */
function coldRefusal(context: TableContext, step: Step, i: number): TooCold | null {
  if (step.hands !== 'fine' || isBelow(step)) return null;
  const airC = context.conditions.weather.airC[i] ?? Number.NaN;
  const chillC = feltC(context, step, i);
  if (Number.isNaN(chillC)) return null;
  return tooColdForFineWork({ airC, chillC, wet: isWet(context, step, i) });
}

/** What the hands feel [°C]: wind chill of the median scenario, colder when wet; NaN: unknown. */
const feltC = (context: TableContext, step: Step, i: number): number =>
  (context.chillC[i] ?? Number.NaN) - (isWet(context, step, i) ? context.settings.timeFactors.wetColderC : 0);

/** Rain or spray on the hands. */
const isWet = (context: TableContext, step: Step, i: number): boolean =>
  isWetWork({
    rainMmPerH: context.conditions.weather.rainMmPerH[i] ?? Number.NaN,
    trueWindKn: context.medianWindKn[i] ?? Number.NaN,
    isInSpray: step.place === 'foredeck' || step.place === 'overside',
  });

const wornGlovesRatio = ({ settings }: TableContext, step: Step): number =>
  isBelow(step) ? 1 : glovesRatio(settings.gloves, settings.timeFactors);

/** Sun by day outside, shade below and in the dark. */
function heatRatio(context: TableContext, step: Step, i: number): number {
  return context.slots.heatRatio(i, { effort: step.effort, isInSun: isInSun(context, step, i) });
}

/** NaN: looking round as often as needed leaves no time for the work. Glances from the deck cost nothing. */
function lookoutRatio({ slots }: TableContext, step: Step, i: number): number {
  if (step.lookout === 'full' || (step.lookout === 'glances' && !isBelow(step))) return 1;
  return lookoutFactorRatio({ place: step.place, intervalMin: slots.lookoutMin(i) }) ?? Number.NaN;
}
