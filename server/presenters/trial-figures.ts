import type { Plan } from '../../lib/planner/index.ts';
import { aboutText, amountText, of100, plusMinus } from './amount-texts.ts';
import type { PassageView } from './plan-standing.ts';
import { durationText } from './time-texts.ts';

/** One figure of the whole in both plans. */
export interface TrialFigure {
  readonly term: string;
  readonly before: string;
  readonly after: string;
  readonly isSame: boolean;
}

/** The plan that stands and the trial beside it, all planned jobs together first. */
export function trialFigures(before: PassageView, after: PassageView): TrialFigure[] {
  return FIGURES.map(({ term, text }) => {
    const [was, is] = [text(before.plan), text(after.plan)];
    return { term, before: was, after: is, isSame: was === is };
  });
}

const FIGURES: readonly { readonly term: string; readonly text: (plan: Plan) => string }[] = [
  {
    term: 'All planned jobs together inside their limits',
    text: ({ totals }) => chanceText(totals.allDoneProbability, totals.allDoneProbabilitySd),
  },
  { term: 'Jobs planned', text: ({ jobs }) => countText(jobs) },
  { term: 'Hours on deck', text: ({ totals }) => amountText(totals.deckH, 'h') },
  { term: 'Way lost', text: ({ totals }) => aboutText(totals.lostNm, 'nm') },
  { term: 'Sleep in 24 h', text: ({ totals }) => amountText(totals.sleepHPer24H, 'h') },
  { term: 'Nobody looks out for', text: ({ totals }) => durationText(totals.unwatchedMin) },
];

/** `82 of 100 ± 3` */
export const chanceText = (probability: number | null, probabilitySd: number | null): string =>
  probability === null ? 'none' : `${of100(probability)} of 100 ${plusMinus(probabilitySd)}`.trim();

function countText(jobs: Plan['jobs']): string {
  const count = (status: Plan['jobs'][number]['status']): number => jobs.filter((job) => job.status === status).length;
  const conditional = count('conditional');
  const unplanned = count('unplanned');
  return [
    String(count('planned')),
    ...(conditional === 0 ? [] : [`${conditional} conditional`]),
    ...(unplanned === 0 ? [] : [`${unplanned} not`]),
  ].join(', ');
}

/** How many jobs stay in it and how sure they are together, against the plan without this start. */
export function plannedTexts({ plan, picture }: PassageView, before: PassageView): string[] {
  const [now, then] = [plannedCount(plan), plannedCount(before.plan)];
  const counted =
    now === then
      ? `With this start ${jobsText(now)} planned, as many as without it.`
      : `With this start ${jobsText(now)} planned, without it ${then}.`;
  const { allDoneProbability, allDoneProbabilitySd } = plan.totals;
  if (allDoneProbability === null) return [counted];
  const was = before.plan.totals;
  const without =
    was.allDoneProbability === null
      ? ''
      : `, without it in ${chanceText(was.allDoneProbability, was.allDoneProbabilitySd)}`;
  return [
    counted,
    `Together they stay inside their limits in ${chanceText(allDoneProbability, allDoneProbabilitySd)}${without}; you want ${of100(picture.wantedProbability)}.`,
  ];
}

const jobsText = (count: number): string => (count === 1 ? '1 job is' : `${count} jobs are`);

const plannedCount = ({ jobs }: Plan): number =>
  jobs.filter(({ status }) => status === 'planned' || status === 'conditional').length;
