import { solverText } from '../../lib/brief/index.ts';
import type { Plan, PlanPicture } from '../../lib/planner/index.ts';
import { aboutText, of100, plusMinus } from './amount-texts.ts';
import { joined, limitName } from './limit-texts.ts';
import type { Fact } from './fact.ts';
import { durationText, epochOf, type TimeTexts } from './time-texts.ts';

/** What stands under the jobs: the plan as a whole, what it was made from, what it is not. */
export interface PlanNotes {
  readonly whole: readonly Fact[];
  readonly forecast: readonly string[];
  readonly cautions: readonly string[];
  readonly defaults: string;
}

export function planNotes(plan: Plan, picture: PlanPicture, times: TimeTexts): PlanNotes {
  return {
    whole: wholeFacts(plan, picture),
    forecast: forecastSentences(plan, times),
    cautions: cautions(plan),
    defaults: defaultsText(picture),
  };
}

function wholeFacts(plan: Plan, picture: PlanPicture): Fact[] {
  const { totals } = plan;
  return [
    ...chanceFacts(plan, picture),
    ...doneFacts(plan),
    { term: 'Time on deck', figure: durationText(totals.deckH * 60), rest: '' },
    { term: 'Lost on the way', figure: aboutText(totals.lostNm, 'nm'), rest: '' },
    { term: 'Sleep', figure: durationText(totals.sleepHPer24H * 60), rest: 'per 24 h' },
    { term: 'Without a look-out', figure: durationText(totals.unwatchedMin), rest: 'set the alarms' },
  ];
}

function chanceFacts({ totals, firstFair, jobs }: Plan, picture: PlanPicture): Fact[] {
  if (totals.allDoneProbability === null) {
    return [{ term: 'All planned jobs together', figure: 'none', rest: 'no job is planned without a condition' }];
  }
  const spread = plusMinus(totals.allDoneProbabilitySd);
  const short = totals.allDoneProbability < picture.wantedProbability;
  const wanted = `${short ? 'less than' : 'at least'} the ${of100(picture.wantedProbability)} you want`;
  const together: Fact = {
    term: 'All planned jobs together',
    figure: String(of100(totals.allDoneProbability)),
    rest: `of 100 ${spread}`.trim(),
    below: wanted,
  };
  if (firstFair === null) return [together];
  const plannedCount = jobs.filter((job) => job.status === 'planned').length;
  const compared: Fact = {
    term: 'First fair window for each',
    figure: firstFair.allDoneProbability === null ? 'none' : String(of100(firstFair.allDoneProbability)),
    rest: firstFair.allDoneProbability === null ? '' : 'of 100',
    below: `${firstFair.plannedJobIds.length} of ${plannedCount} jobs placed`,
  };
  return [together, compared];
}

/** Beside the chance of all together: how far one gets when the work goes faster or slower. */
function doneFacts({ totals, jobs }: Plan): Fact[] {
  if (totals.expectedJobsDone === null) return [];
  const plannedCount = jobs.filter((job) => job.status === 'planned').length;
  return [
    {
      term: 'Done inside limits, on average',
      figure: totals.expectedJobsDone.toFixed(1),
      rest: `of ${plannedCount} jobs`,
      below: 'if the work runs short or long',
    },
  ];
}

function forecastSentences(plan: Plan, times: TimeTexts): string[] {
  const { forecast } = plan;
  const base = epochOf(forecast.baseTimeUtc);
  const missing =
    forecast.missing.length === 0
      ? 'It holds every quantity asked for.'
      : `It does not hold ${joined(forecast.missing.map(limitName))}: limits on what it does not hold are unknown, never counted as met.`;
  return [
    `Forecast of ${times.utc(base)}, ${durationText(forecast.ageH * 60)} old, ${forecast.members} scenarios, ends ${times.dayTime(epochOf(forecast.endUtc))}.`,
    missing,
    solverText(plan),
    '± is one standard error.',
  ];
}

/** Said on every plan, unless the plan says it itself: a pattern that finds it there. */
const always: readonly (readonly [says: RegExp, sentence: string])[] = [
  [
    /advice, not permission/i,
    'This is advice, not permission: the skipper decides, on deck, with what is seen there. Flag state, class and race rules, makers’ instructions and licensed practice come first.',
  ],
  [
    /rule 5/i,
    'No sleep plan of a lone sailor satisfies COLREG Rule 5, a proper look-out at all times. Sleep here is the lesser risk, not a permitted one.',
  ],
];

const cautions = (plan: Plan): string[] => [
  ...always.filter(([says]) => !plan.cautions.some((caution) => says.test(caution))).map(([, sentence]) => sentence),
  ...plan.cautions,
];

/** What stands wherever a plan lets a lone sailor sleep. */
export function lookoutSentence(plan: Plan): string {
  const sentence = cautions(plan).find((caution) => /rule 5/i.test(caution));
  if (sentence === undefined) throw new Error('a plan says nothing of the look-out rule');
  return sentence;
}

const defaultsText = ({ defaults }: PlanPicture): string =>
  defaults.length === 0 ? '' : defaults.map(({ name, text }) => `${name} ${text}`).join('; ');
