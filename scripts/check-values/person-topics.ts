import {
  asleepS,
  asleepSAsPublished,
  awakeS,
  circadianC,
  handsFactorRatio,
  inertiaGateMin,
  inertiaW,
  kssAboveProbability,
  kssFromAlertness,
  kssWithInertia,
  nextLagMin,
  priorSleepFindings,
  simulateAlertness,
  tiredFactorRatio,
  ultradianU,
  windChillC,
  type Gloves,
  type Hands,
  type RatingPercentile,
} from '../../lib/person/index.ts';
import { MS_PER_H, utcInterval } from '../../lib/time/index.ts';
import type { CheckItem, Topic } from './check-item.ts';
import { climateTopics } from './climate-topics.ts';
import { listIn, numberIn, textIn } from './inputs.ts';

type Answers = Readonly<Record<string, unknown>>;

const functions: Readonly<Record<string, (x: number, elapsedH: number) => number>> = {
  S_wake: (s, elapsedH) => awakeS({ s, elapsedH }),
  S_sleep: (s, elapsedH) => asleepSAsPublished({ s, elapsedH }),
  S_sleep_continuous: (s, elapsedH) => asleepS({ s, elapsedH }),
  C: circadianC,
  U: ultradianU,
  W: inertiaW,
  KSS_fips: (alertnessPoints) => kssWithInertia({ alertnessPoints, w: 0 }),
  KSS_5c: kssFromAlertness,
};

function functionAnswers({ inputs }: CheckItem): Answers {
  const [x, elapsedH = 0] = listIn(inputs, 'args').map(Number);
  const run = functions[textIn(inputs, 'fn')];
  if (run === undefined || x === undefined) throw new Error(`there is no function ${textIn(inputs, 'fn')}`);
  return { value: run(x, elapsedH) };
}

/** The reference run has a step of five minutes; its hours are rounded. */
const msAtHour = (hour: number): number => Math.round(hour * 12) * (MS_PER_H / 12);

/** Hours since body-clock midnight: longitude 0 without a lag. */
function scenarioAnswers({ inputs }: CheckItem): Answers {
  const sleeps = listIn(inputs, 'sleepsHour').map((sleep) => {
    const [from, to] = Array.isArray(sleep) ? sleep.map(Number) : [];
    if (from === undefined || to === undefined) throw new Error('a sleep is not [from, to]');
    return utcInterval(msAtHour(from), msAtHour(to));
  });
  const [state] = simulateAlertness(sleeps, {
    atEpochMs: [msAtHour(numberIn(inputs, 'hour'))],
    bodyClock: (epochMs) => (epochMs / MS_PER_H) % 24,
    sleepEfficiencyRatio: 1,
    start: { kind: 's', s: numberIn(inputs, 'startS') },
    sleepFormula: textIn(inputs, 'sleepFormula') === 'continuous' ? 'continuous' : 'as-published',
  });
  if (state === undefined || state === null) throw new Error('the hour lies before the first sleep');
  return {
    S: state.s,
    C: state.c,
    U: state.u,
    W: state.w,
    asleep: state.asleep,
    inState: state.inStateH,
    alertness: state.alertnessPoints,
    kssWithInertia: kssWithInertia(state),
    kss: state.kssPoints,
  };
}

function isPercentile(value: number): value is RatingPercentile {
  return value === 50 || value === 75 || value === 90;
}

function probabilityAnswers({ inputs }: CheckItem): Answers {
  const percentile = numberIn(inputs, 'percentile');
  if (!isPercentile(percentile)) throw new Error(`there is no percentile ${percentile}`);
  const of = { alertnessPoints: numberIn(inputs, 'alertness'), k: numberIn(inputs, 'k'), percentile };
  return { probability: kssAboveProbability(of) };
}

function priorSleepAnswers({ inputs }: CheckItem): Answers {
  const failing = priorSleepFindings({
    alertnessPoints: Number.POSITIVE_INFINITY,
    todH: 12,
    lastSleepMin: 0,
    wokeTodH: 7,
    lapses: 0,
    awakeH: numberIn(inputs, 'awakeEndH'),
    slept24H: numberIn(inputs, 'sleep24H'),
    slept48H: numberIn(inputs, 'sleep48H'),
  }).map(({ rule }) => rule);
  return {
    sleep24Met: !failing.includes('sleep-24h'),
    sleep48Met: !failing.includes('sleep-48h'),
    awakeMet: !failing.includes('awake-beyond-sleep'),
  };
}

function bodyClockAnswers({ inputs }: CheckItem): Answers {
  const solarShiftMin = numberIn(inputs, 'driftMinPerDay');
  let lagMin = 0;
  for (let day = 0; day < 60; day++) lagMin = nextLagMin({ lagMin, solarShiftMin, elapsedH: 24 });
  return { beforeUpdate: lagMin + solarShiftMin, afterUpdate: lagMin };
}

const isHands = (value: string): value is Hands => ['gross', 'medium', 'fine'].includes(value);
const isGloves = (value: string): value is Gloves => ['none', 'thin', 'thick'].includes(value);

function handAnswers({ inputs }: CheckItem): Answers {
  const [hands, gloves] = [textIn(inputs, 'hands'), textIn(inputs, 'gloves')];
  if (!isHands(hands) || !isGloves(gloves)) throw new Error(`there are no ${hands} hands in ${gloves} gloves`);
  const of = { chillC: numberIn(inputs, 'chillC'), exposureMin: numberIn(inputs, 'exposureMin'), hands, gloves };
  return { factor: handsFactorRatio(of) };
}

export const personTopics: readonly Topic[] = [
  { topic: 'three-process-function', compute: functionAnswers },
  { topic: 'three-process-run', compute: scenarioAnswers },
  { topic: 'kss-probability', compute: probabilityAnswers },
  { topic: 'prior-sleep', compute: priorSleepAnswers },
  { topic: 'body-clock-lag', compute: bodyClockAnswers },
  {
    topic: 'wind-chill',
    compute: ({ inputs }) => ({
      chill: windChillC({ airC: numberIn(inputs, 'airC'), deckWindKn: numberIn(inputs, 'windKmPerH') / 1.852 }),
    }),
  },
  { topic: 'hand-time-factor', compute: handAnswers },
  {
    topic: 'inertia-gate',
    compute: ({ inputs }) => ({
      gate: inertiaGateMin({ lastSleepMin: numberIn(inputs, 'sleepMin'), wokeTodH: numberIn(inputs, 'wokeTodH') }),
    }),
  },
  { topic: 'tired-factor', compute: ({ inputs }) => ({ factor: tiredFactorRatio(numberIn(inputs, 'kss')) }) },
  ...climateTopics,
];
