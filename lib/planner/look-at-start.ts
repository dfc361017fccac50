import type { Result } from '../result/index.ts';
import { failed, ok } from '../result/index.ts';
import { formatUtc, MS_PER_MIN, slotEpochMs } from '../time/index.ts';
import type { Conditions, Light } from '../voyage/index.ts';
import { deckWindUnder, LIGHTS } from '../voyage/index.ts';
import type { BlockTable, LimitMargin, SlotSpan } from '../windows/index.ts';
import { blockMargins, hasBit, LIMIT_IDS, quantileAt, setOfTable, totalWeight } from '../windows/index.ts';
import type { AskedBlock, AskedWork } from './asked-work.ts';
import { askedWork } from './asked-work.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';

/** A start somebody points at. */
export interface AskedStart extends AskedBlock {
  readonly startSlot: number;
}

/** What a start would meet, boat on the nominal track, worker fresh. */
export interface StartLook {
  readonly asked: AskedStart;
  readonly startEpochMs: number;
  /** The work cannot begin here at all; the figures below are then null and the lists empty. */
  readonly refused: 'too-slow' | 'past-forecast' | null;
  readonly plannedMin: number | null;
  /** The weather must hold for so long from the start, contingency included. */
  readonly referenceMin: number | null;
  /** Share of scenario weight inside every known limit over the whole reference period. */
  readonly probability: number | null;
  /** One standard error of it. */
  readonly probabilitySd: number | null;
  /** Every known limit, tightest first. */
  readonly limits: readonly LimitLook[];
  readonly unknownLimits: readonly string[];
  /** Share of scenarios that break no limit and yet fail: there the work would outlast the reference period. */
  readonly tooSlowShare: number;
  readonly deckWindKn: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
  readonly lightAtStart: Light;
  /** Light at the end of the planned work. */
  readonly lightAtEnd: Light | null;
  readonly position: { readonly lat: number; readonly lon: number };
  /** Jobs that must be finished before. */
  readonly afterJobIds: readonly string[];
}

/** One limit over the reference period: its tightest moment in the median scenario, and who breaks it when. */
export interface LimitLook extends LimitMargin {
  /** First instant any scenario breaks it; null: none does. */
  readonly firstBrokenEpochMs: number | null;
  /** Share of scenario weight that breaks it somewhere in the reference period. */
  readonly brokenShare: number;
}

/**
 * Looks at one start of a block under a handling.
 *
 * @returns problems of {@link askedWork}, or `windows.start-outside`
 */
export function lookAtStart(preparation: Preparation, asked: AskedStart): Result<StartLook> {
  const found = askedWork(preparation, asked);
  if (!found.ok) return found;
  const { grid, fromSlot } = preparation;
  const { startSlot } = asked;
  const lastSlot = grid.slotCount - 1;
  if (!Number.isInteger(startSlot) || startSlot < fromSlot || startSlot > lastSlot) {
    return failed({
      code: 'windows.start-outside',
      where: 'start',
      what: 'This start is not in the hours of the forecast that are still ahead.',
      expected: `from ${formatUtc(slotEpochMs(grid, fromSlot))} to ${formatUtc(slotEpochMs(grid, lastSlot))}`,
      remedy: 'Choose a start in that span.',
    });
  }
  const table = found.value.table.at(startSlot);
  const refused = whyRefused(found.value, startSlot, lastSlot);
  const conditions = preparation.lag.conditionsAt(0);
  return ok({
    ...atStart(conditions, found.value, asked),
    ...(refused === null ? judged({ preparation, conditions, found: found.value, table }, startSlot) : notJudged),
    refused,
  });
}

const notJudged = {
  plannedMin: null,
  referenceMin: null,
  probability: null,
  probabilitySd: null,
  limits: [],
  unknownLimits: [],
  tooSlowShare: 0,
  lightAtEnd: null,
} as const;

type AtStart = Pick<StartLook, 'asked' | 'startEpochMs' | 'deckWindKn' | 'lightAtStart' | 'position' | 'afterJobIds'>;

function atStart(conditions: Conditions, { work, job }: AskedWork, asked: AskedStart): AtStart {
  const { course, weather, light } = conditions;
  const i = asked.startSlot;
  const deck = deckWindUnder(conditions, work.handling, work.sailStateId).meanKn;
  const at = (quantileProbability: number): number => quantileAt(deck, weather, { i, quantileProbability });
  const spread = { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
  return {
    asked,
    startEpochMs: slotEpochMs(course.grid, i),
    deckWindKn: Number.isNaN(spread.p50) ? null : spread,
    lightAtStart: LIGHTS[light[i] ?? 3] ?? 'night',
    position: { lat: course.lat[i] ?? 0, lon: course.lon[i] ?? 0 },
    afterJobIds: job.after,
  };
}

/** A start is refused where the work is slowed more than threefold, or would outlast the forecast. */
function whyRefused({ table }: AskedWork, startSlot: number, lastSlot: number): StartLook['refused'] {
  if ((table.at(startSlot).referenceSlots[startSlot] ?? 0) > 0) return null;
  for (let i = startSlot - 1; i >= 0; i--) {
    const slots = table.at(i).referenceSlots[i] ?? 0;
    if (slots > 0) return startSlot + slots > lastSlot ? 'past-forecast' : 'too-slow';
  }
  return 'too-slow';
}

interface Judging {
  readonly preparation: Preparation;
  readonly conditions: Conditions;
  readonly found: AskedWork;
  readonly table: BlockTable;
}

type Judged = Omit<StartLook, keyof AtStart | 'refused'>;

function judged(judging: Judging, startSlot: number): Judged {
  const { preparation, conditions, found, table } = judging;
  const { weights } = preparation.weather;
  const { slotMin } = preparation.grid;
  const all = totalWeight(weights);
  const probability = (table.weight[startSlot] ?? 0) / all;
  const plannedMin = table.plannedMin[startSlot] ?? 0;
  const spans = table.spans[startSlot] ?? [];
  const settings = tableSettings(preparation.passage, preparation.weather, 1);
  const breaks = firstBreaks(judging, spans);
  const mask = setOfTable(table, startSlot);
  const isSlow = (w: number): boolean => !hasBit(mask, w) && breaks.every((limit) => limit.bySlot[w] === null);
  const unknownBits = table.unknownBits[startSlot] ?? 0;
  const endSlot = Math.min(conditions.light.length - 1, startSlot + Math.ceil(plannedMin / slotMin));
  return {
    plannedMin,
    referenceMin: (table.referenceSlots[startSlot] ?? 0) * slotMin,
    probability,
    probabilitySd: standardError(probability, weights),
    limits: blockMargins(found.work, { conditions, settings }, spans).map((margin) => ({
      ...margin,
      ...breakingOf(
        breaks.find(({ limit }) => limit === margin.limit),
        judging,
      ),
    })),
    unknownLimits: LIMIT_IDS.filter((_, bit) => ((unknownBits >>> bit) & 1) === 1),
    tooSlowShare: weights.reduce((sum, weight, w) => sum + (isSlow(w) ? weight : 0), 0) / all,
    lightAtEnd: LIGHTS[conditions.light[endSlot] ?? 3] ?? 'night',
  };
}

/** Standard error of a weighted share: √(p(1 − p) Σw²) / Σw, each scenario independent. */
function standardError(probability: number, weights: Int32Array): number {
  const squares = weights.reduce((sum, weight) => sum + weight * weight, 0);
  return Math.sqrt(probability * (1 - probability) * squares) / totalWeight(weights);
}

/** First slot at which a limit is broken in each scenario; null: it is not. */
interface LimitBreaks {
  readonly limit: LimitMargin['limit'];
  readonly bySlot: (number | null)[];
}

/** Margins of single scenarios, slot by slot: the same rules as the windows', asked of one scenario at a time. */
function firstBreaks({ preparation, conditions, found }: Judging, spans: readonly SlotSpan[]): LimitBreaks[] {
  const settings = tableSettings(preparation.passage, preparation.weather, 1);
  const breaks = new Map<LimitMargin['limit'], LimitBreaks>();
  const fromSlot = Math.min(...spans.map((span) => span.fromSlot));
  const toSlot = Math.max(...spans.map((span) => span.toSlot));
  for (const [w, conditionsAlone] of scenariosAlone(conditions).entries()) {
    for (let slot = fromSlot; slot <= toSlot; slot++) {
      const [first, ...others] = found.block.steps.filter((_, k) => isIn(slot, spans[k]));
      if (first === undefined) continue;
      const block = { ...found.block, steps: [first, ...others] as const };
      const atSlot = block.steps.map(() => ({ fromSlot: slot, toSlot: slot }));
      for (const margin of blockMargins({ ...found.work, block }, { conditions: conditionsAlone, settings }, atSlot)) {
        if (!isBroken(margin)) continue;
        const { limit } = margin;
        const known = breaks.get(limit) ?? { limit, bySlot: Array.from(preparation.weather.weights, () => null) };
        known.bySlot[w] ??= slot;
        breaks.set(limit, known);
      }
    }
  }
  return [...breaks.values()];
}

const isIn = (slot: number, span: SlotSpan | undefined): boolean =>
  span !== undefined && span.fromSlot <= slot && slot <= span.toSlot;

/** Weather is kept in single precision: a value equal to its limit must stay equal. */
const isBroken = ({ margin, required }: LimitMargin): boolean => margin < -1e-6 * Math.max(1, Math.abs(required));

function breakingOf(
  breaks: LimitBreaks | undefined,
  { preparation }: Judging,
): Pick<LimitLook, 'firstBrokenEpochMs' | 'brokenShare'> {
  if (breaks === undefined) return { firstBrokenEpochMs: null, brokenShare: 0 };
  const { weights } = preparation.weather;
  const slots = breaks.bySlot.filter((slot) => slot !== null);
  const broken = weights.reduce((sum, weight, w) => sum + (breaks.bySlot[w] === null ? 0 : weight), 0);
  return {
    firstBrokenEpochMs: slotEpochMs(preparation.grid, Math.min(...slots)),
    brokenShare: broken / totalWeight(weights),
  };
}

const keptAlone = new WeakMap<Conditions, readonly Conditions[]>();

/** Each scenario as conditions of its own, so that its margins can be asked for; light and shared weather are the same. */
function scenariosAlone(conditions: Conditions): readonly Conditions[] {
  const known = keptAlone.get(conditions);
  if (known !== undefined) return known;
  const { weather } = conditions;
  const made = Array.from({ length: weather.scenarioCount }, (_, w): Conditions => {
    const own = (values: Float32Array): Float32Array =>
      values.subarray(w * weather.pointCount, (w + 1) * weather.pointCount);
    const ownWeather = {
      ...weather,
      scenarioCount: 1,
      weights: weather.weights.subarray(w, w + 1),
      windKn: own(weather.windKn),
      windFromDegTrue: own(weather.windFromDegTrue),
      gustKn: own(weather.gustKn),
      seaHeightM: own(weather.seaHeightM),
    };
    return { ...conditions, weather: ownWeather, deckWinds: new Map() };
  });
  keptAlone.set(conditions, made);
  return made;
}

/** End of the planned work and of the period the weather must hold [epoch ms]; null where the start is refused. */
export function lookEnds(look: StartLook): { readonly endEpochMs: number; readonly holdEpochMs: number } | null {
  if (look.plannedMin === null || look.referenceMin === null) return null;
  return {
    endEpochMs: look.startEpochMs + look.plannedMin * MS_PER_MIN,
    holdEpochMs: look.startEpochMs + look.referenceMin * MS_PER_MIN,
  };
}
