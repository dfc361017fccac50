import {
  changeReasons,
  jobNamesOf,
  type KnownCauses,
  type PlanCause,
  planCauses,
  planCausesText,
  planChanges,
  planChangesText,
} from '../../lib/brief/index.ts';
import type { NumberedEntry } from '../../lib/log/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { NumberedPlan, PlanOfNumber } from '../keep-plans.ts';
import { of100 } from './amount-texts.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { epochOf, type TimeTexts, timeTexts } from './time-texts.ts';
import { sentenceIn } from './units/sentence.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** Every plan of the passage, and two of them beside each other. */
export interface PlansPage {
  readonly kind: 'plans';
  readonly name: string;
  readonly clock: Clock;
  /** Newest first. */
  readonly rows: readonly PlanRow[];
  readonly choice: { readonly options: readonly PlanOption[]; readonly from: string; readonly to: string } | null;
  /** null: nothing is compared. */
  readonly compared: ComparedPlans | null;
  /** Why they cannot be compared, or listed. */
  readonly problems: readonly Problem[];
}

export interface PlanRow {
  readonly number: number;
  readonly made: string;
  readonly madeUtc: string;
  readonly forecast: string;
  /** What it was made of. */
  readonly of: string;
  readonly jobs: string;
  /** `75 of 100`; `none` */
  readonly chance: string;
  /** Said besides: kept as it stood, stopped early. */
  readonly note: string;
  readonly isShown: boolean;
  /** Comparison with the plan before it; null: it is the first. */
  readonly changesHref: string | null;
  readonly fileHref: string;
}

export interface PlanOption {
  readonly value: string;
  readonly text: string;
}

export interface ComparedPlans {
  readonly title: string;
  /** One sentence each; empty: nothing has changed. */
  readonly sentences: readonly string[];
  /** What was known when the newer was made and not when the older was. */
  readonly causes: readonly string[];
}

export interface PlansShown {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  readonly plans: readonly NumberedPlan[];
  /** Number of the plan that is shown; null: none is, or it has none. */
  readonly shownNumber: number | null;
  readonly handlingNames: Readonly<Record<string, string>>;
  /** null: nothing was asked for. */
  readonly asked: { readonly from: string; readonly to: string } | null;
  readonly older: PlanOfNumber | null;
  readonly newer: PlanOfNumber | null;
  readonly log: readonly NumberedEntry[];
  /** Paths of the passage that differ between the two. */
  readonly editedPaths: readonly string[];
  readonly problems: readonly Problem[];
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
}

export function plansPage(shown: PlansShown): PlansPage {
  const { document, plans, older, newer, problems } = shown;
  const times = timeTexts(document.passage.settings.shipTimeOffsetMin, shown.units);
  return {
    kind: 'plans',
    name: document.passage.name,
    clock: documentClock(document.passage, shown.nowEpochMs),
    rows: plans.map((plan, index) => planRow(plan, plans[index - 1] ?? null, shown, times)).toReversed(),
    choice: plans.length < 2 ? null : choiceOf(shown, times),
    compared: older === null || newer === null ? null : comparedPlans(older, newer, shown, times),
    problems,
  };
}

function planRow(
  { number, madeAtUtc, madeOf }: NumberedPlan,
  before: NumberedPlan | null,
  { shownNumber }: PlansShown,
  times: TimeTexts,
): PlanRow {
  const madeEpochMs = epochOf(madeAtUtc);
  return {
    number,
    made: times.full(madeEpochMs),
    madeUtc: times.utc(madeEpochMs),
    forecast: madeOf === null ? 'not known' : times.utc(epochOf(madeOf.forecastBaseUtc)),
    of: madeOf === null ? 'not known' : madeOfText(madeOf),
    jobs: madeOf === null ? 'not known' : jobsText(madeOf.jobs),
    chance: madeOf === null ? 'not known' : chanceText(madeOf.allDoneProbability),
    note: madeOf === null ? '' : noteText(madeOf),
    isShown: number === shownNumber,
    changesHref: before === null ? null : compareHref(before.number, number),
    fileHref: `/plans/${number}.json`,
  };
}

/** Address of two plans beside each other. */
export const compareHref = (fromNumber: number, toNumber: number): string =>
  `/plans?from=${fromNumber}&to=${toNumber}#changes`;

type MadeOf = NonNullable<NumberedPlan['madeOf']>;

const madeOfText = ({ version, logNumber }: MadeOf): string =>
  `version ${version}${logNumber === 0 ? ', no log' : `, log to entry ${logNumber}`}`;

function jobsText({ planned, conditional, unplanned, done }: MadeOf['jobs']): string {
  const parts = [
    ...(conditional === 0 ? [] : [`${conditional} conditional`]),
    ...(unplanned === 0 ? [] : [`${unplanned} not`]),
    ...(done === 0 ? [] : [`${done} done`]),
  ];
  return [`${planned} planned`, ...parts].join(', ');
}

const chanceText = (probability: number | null): string =>
  probability === null ? 'none' : `${of100(probability)} of 100`;

const noteText = ({ isKept, isStoppedEarly }: MadeOf): string =>
  [...(isKept ? ['kept as it stood'] : []), ...(isStoppedEarly ? ['stopped early'] : [])].join(', ');

function choiceOf({ plans, asked }: PlansShown, times: TimeTexts): PlansPage['choice'] {
  const options = plans
    .map(({ number, madeAtUtc }) => ({
      value: String(number),
      text: `Plan ${number}, ${times.dayTime(epochOf(madeAtUtc))}`,
    }))
    .toReversed();
  return {
    options,
    from: asked?.from ?? String(plans.at(-2)?.number ?? ''),
    to: asked?.to ?? String(plans.at(-1)?.number ?? ''),
  };
}

function comparedPlans(
  older: PlanOfNumber,
  newer: PlanOfNumber,
  { document, handlingNames, log, editedPaths }: PlansShown,
  times: TimeTexts,
): ComparedPlans {
  const { shipTimeOffsetMin } = document.passage.settings;
  const named = ({ number, madeAtUtc }: NumberedPlan): string =>
    `plan ${number} of ${times.dayTime(epochOf(madeAtUtc))}`;
  const plans = { older: older.plan, newer: newer.plan };
  const changes = planChanges(plans.older, plans.newer);
  const jobNames = jobNamesOf(plans.older, plans.newer);
  const causes = planCauses(plans, knownCauses(older.madeOf, newer.madeOf, { log, editedPaths }));
  return {
    title: `From ${named(older)} to ${named(newer)}`,
    sentences: planChangesText(
      changes,
      { shipTimeOffsetMin, handlingNames, jobNames },
      changeReasons(plans, changes),
    ).map((sentence) => sentenceIn(sentence, times.units)),
    causes: [
      ...planCausesText(causes, { shipTimeOffsetMin, jobNames }),
      ...otherCauses(older.madeOf, newer.madeOf, causes),
    ].map((sentence) => sentenceIn(sentence, times.units)),
  };
}

function knownCauses(
  older: MadeOf | null,
  newer: MadeOf | null,
  { log, editedPaths }: Pick<PlansShown, 'log' | 'editedPaths'>,
): KnownCauses {
  if (older === null || newer === null) return {};
  const isSameMatch = older.match.join(' ') === newer.match.join(' ');
  return {
    log: older.logNumber === newer.logNumber ? [] : log,
    pace: { usualRatio: newer.usualPaceRatio, older: older.paceByWork, newer: newer.paceByWork },
    seenWeather: isSameMatch ? [] : newer.match.slice(0, 1),
    editedPaths,
  };
}

/** What only the numbers tell: entries of earlier hours that were written later, a passage saved as it was. */
function otherCauses(older: MadeOf | null, newer: MadeOf | null, causes: readonly PlanCause[]): string[] {
  if (older === null || newer === null) return [];
  const isTold = (kind: PlanCause['kind']): boolean => causes.some((cause) => cause.kind === kind);
  return [
    ...(older.logNumber === newer.logNumber || isTold('log')
      ? []
      : [`The log goes to entry ${newer.logNumber}, it went to ${older.logNumber === 0 ? 'none' : older.logNumber}.`]),
    ...(older.version === newer.version || isTold('edited')
      ? []
      : [`The passage is at version ${newer.version}, it was at ${older.version}.`]),
  ];
}
