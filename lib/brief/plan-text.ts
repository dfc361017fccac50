import type { Plan, PlanEntry, PlannedJob } from '../planner/index.ts';
import { comparisonText, limitWords, startCheckText } from '../planner/index.ts';
import { QUANTITIES } from '../forecast/index.ts';
import { ofHundred as chanceOfHundred } from '../reasons/index.ts';
import { formatAt } from '../time/index.ts';
import { spreadText } from './export/job-words.ts';
import { factorsText, watchLines } from './watch-text.ts';

/** How a text is to be read: ship's time and how wide the terminal is. */
export interface TextSettings {
  readonly shipTimeOffsetMin: number;
  /** Names of handlings by id; an id without one stands for itself. */
  readonly handlingNames?: Readonly<Record<string, string>>;
}

/**
 * The plan for a terminal: what is next and why, every job in order of time, what is not planned and why, sleep,
 * figures and cautions. Times are ship's time; UTC stands in the first line.
 */
export function planText(plan: Plan, settings: TextSettings): string {
  const next = nextJob(plan);
  return [
    headline(plan, settings),
    ...(next === null ? ['Nothing can be planned.'] : nextLines(next, settings)),
    '',
    'Plan (ship’s time)',
    ...timetable(plan, settings),
    ...(plan.entries.some(({ kind }) => kind === 'sleep') ? [`  ${plan.watch.notes[0] ?? ''}`] : []),
    '',
    'Jobs',
    ...plan.jobs.flatMap((job) => jobLines(job, settings)),
    '',
    ...watchLines(plan, settings.shipTimeOffsetMin),
    '',
    ...figures(plan),
    '',
    'Cautions',
    ...plan.cautions.map((caution) => `  - ${caution}`),
  ].join('\n');
}

/** `sea height` for `seaHeight`. */
const quantityName = (id: string): string => QUANTITIES.find((quantity) => quantity.id === id)?.name ?? id;

function nextJob(plan: Plan): PlannedJob | null {
  return plan.jobs.filter((job) => job.startUtc !== null && job.status !== 'done').toSorted(byStart)[0] ?? null;
}

function byStart(a: PlannedJob, b: PlannedJob): number {
  return (a.startUtc ?? '9').localeCompare(b.startUtc ?? '9');
}

function headline(plan: Plan, settings: TextSettings): string {
  const { forecast } = plan;
  const missing =
    forecast.missing.length === 0 ? '' : ` Not in the forecast: ${forecast.missing.map(quantityName).join(', ')}.`;
  const scenarios = forecast.members === 1 ? 'one forecast taken at its word' : `${forecast.members} scenarios`;
  const number = plan.planNumber === null ? '' : `, plan ${plan.planNumber}`;
  return `${plan.passageName}${number}: ${ship(plan.madeAtUtc, settings)} ship’s time (${plan.madeAtUtc}). Forecast of ${forecast.baseTimeUtc}, ${forecast.ageH} h old, to ${forecast.endUtc}, ${scenarios}.${missing}`;
}

const ship = (utc: string | null, settings: TextSettings): string =>
  utc === null ? 'no time' : formatAt(Date.parse(utc), settings.shipTimeOffsetMin, 'ccc d LLL HH:mm');

const clock = (utc: string, settings: TextSettings): string =>
  formatAt(Date.parse(utc), settings.shipTimeOffsetMin, 'HH:mm');

const ofHundred = (probability: number | null): string => (probability === null ? '–' : chanceOfHundred(probability));

function nextLines(job: PlannedJob, settings: TextSettings): string[] {
  const between = job.startBetween;
  return [
    '',
    `Next: ${job.name}, ${ship(job.startUtc, settings)}`,
    ...(between === null
      ? []
      : [`  start between ${ship(between.firstUtc, settings)} and ${ship(between.lastUtc, settings)}`]),
    `  stays inside limits: ${ofHundred(job.probability)}${rehearsedText(job)}`,
    ...(job.sleepFirst === null ? [] : [`  ${job.sleepFirst.text}`]),
    ...(job.why === null ? [] : [`  why then: ${job.why}`]),
    ...(job.whyNotEarlier === null ? [] : [`  why not earlier: ${job.whyNotEarlier}`]),
    ...startCheckLines(job, settings),
    ...(job.goCheck.length === 0 ? [] : ['  look before you start:', ...job.goCheck.map((line) => `    [ ] ${line}`)]),
    `  if not: ${fallbackText(job, settings)}`,
    ...(job.fallbackPlan === null ? [] : [`  ${job.fallbackPlan.text}`]),
  ];
}

function startCheckLines({ startCheck, startBetween, fallback }: PlannedJob, settings: TextSettings): string[] {
  if (startCheck === null) return [];
  const text = startCheckText(startCheck, {
    time: (utc) => ship(utc, settings),
    lastStartUtc: startBetween?.lastUtc ?? null,
    secondUtc: fallback?.startUtc ?? null,
  });
  return text === null ? [] : [`  ${text}`];
}

/** `; with work times as they vary, done in 84 of 100, caught in the middle in 3`. */
function rehearsedText(job: PlannedJob): string {
  if (job.doneInsideLimitsProbability === null) return '';
  const caught = Math.round((job.coreInterruptedProbability ?? 0) * 100);
  const middle = caught === 0 ? '' : `, caught in the middle in ${caught}`;
  return `; with work times as they vary, done in ${ofHundred(job.doneInsideLimitsProbability)}${middle}`;
}

function fallbackText(job: PlannedJob, settings: TextSettings): string {
  if (job.fallback === null) return 'no other fair start before the forecast ends; plan again with the next one.';
  const { startUtc, lastStartUtc, probability } = job.fallback;
  return `${ship(startUtc, settings)}, last start ${ship(lastStartUtc, settings)}, ${ofHundred(probability)}.`;
}

function timetable(plan: Plan, settings: TextSettings): string[] {
  const lastWork = plan.entries.filter((entry) => entry.kind === 'work').at(-1)?.endUtc ?? '';
  return plan.entries
    .filter((entry) => entry.kind !== 'lookout' && entry.startUtc <= lastWork)
    .map(
      (entry) =>
        `  ${ship(entry.startUtc, settings)} – ${entry.kind === 'wait' ? '…    ' : clock(entry.endUtc, settings)}  ${entryText(plan, entry, settings)}`,
    );
}

function entryText(plan: Plan, entry: PlanEntry, settings: TextSettings): string {
  if (entry.kind === 'sleep') return `sleep, alarm at ${clock(entry.endUtc, settings)}`;
  const name = plan.jobs.find((job) => job.jobId === entry.jobId)?.name ?? entry.jobId ?? entry.kind;
  if (entry.kind === 'wait') return `by itself until ${ship(entry.endUtc, settings)}: ${name}`;
  const wind =
    entry.deckWindKn === null
      ? ''
      : `, deck wind ${entry.deckWindKn.p50.toFixed(0)} kn (${entry.deckWindKn.p10.toFixed(0)}–${entry.deckWindKn.p90.toFixed(0)})`;
  const light = entry.light === 'day' ? '' : ', in the dark or twilight';
  const handling = entry.handling === null ? '' : `, ${handlingName(entry.handling, settings)}`;
  return `${name}${handling}${wind}${light}, sleepiness ${entry.kssStart.toFixed(1)}${factorsText(entry)}${restText(entry)}`;
}

/** Rest of the body after heavy work. */
const restText = ({ restAfterMin }: PlanEntry): string =>
  restAfterMin === 0 ? '' : `; then ${restAfterMin} min of rest before more heavy work`;

/** `run off before the wind`, inside a sentence. */
function handlingName(id: string, settings: TextSettings): string {
  const name = settings.handlingNames?.[id] ?? id;
  return name.charAt(0).toLowerCase() + name.slice(1);
}

function jobLines(job: PlannedJob, settings: TextSettings): string[] {
  return [
    `  ${oneLine(job, settings)}`,
    ...(job.sleepFirst === null ? [] : [`      ${job.sleepFirst.text}`]),
    ...(job.why === null ? [] : [`      why then: ${job.why}`, `      why not earlier: ${job.whyNotEarlier ?? ''}`]),
  ];
}

function oneLine(job: PlannedJob, settings: TextSettings): string {
  if (job.status === 'done') return `${job.name}: done.`;
  if (job.nearestMiss !== null) return `${job.name}: not planned. ${job.nearestMiss.text} ${boughtText(job)}`;
  const conditional =
    job.status === 'conditional' ? `, conditional on ${job.unknownLimits.map(limitWords).join(', ')}` : '';
  const binding =
    job.bindingLimit === null
      ? ''
      : `, room ${job.bindingLimit.margin.toFixed(1)} ${job.bindingLimit.unit} (${limitWords(job.bindingLimit.limit)} binds)`;
  return `${job.name}: ${ship(job.startUtc, settings)}, ${ofHundred(job.probability)}${binding}${conditional}. If not: ${fallbackText(job, settings)}`;
}

/** What would open a window, where something would; else what would help. */
function boughtText(job: PlannedJob): string {
  if (job.wouldBuy.length === 0) return job.nearestMiss?.wouldHelp ?? '';
  return `What would buy it: ${job.wouldBuy.map(({ text }) => text).join(' ')}`;
}

/** How good the plan is proven to be: one sentence for terminal and page. */
export function solverText({ solver }: Pick<Plan, 'solver'>): string {
  const { optimal, gap, costGapShare } = solver;
  if (optimal) return 'No better plan exists on the scenarios searched.';
  if (gap === null) return 'The best plan found; how much better another may be is not known.';
  if (costGapShare === null)
    return `The best plan found; another may hold in at most ${atMost100(gap)} of 100 more of the scenarios searched.`;
  return `No plan does more or is surer on the scenarios searched; another may save at most ${atMost100(costGapShare)} % of exposure, miles and sleep.`;
}

/** A bound in 100, rounded up; what is not proven nothing is never called 0. */
const atMost100 = (share: number): number => Math.max(1, Math.ceil(share * 100 - 1e-9));

function figures(plan: Plan): string[] {
  const { totals } = plan;
  const sd = spreadText(totals.allDoneProbabilitySd);
  return [
    totals.allDoneProbability === null
      ? 'No job is planned on limits that are all known.'
      : `All planned jobs inside their limits together: ${ofHundred(totals.allDoneProbability)}${sd}.`,
    `On deck ${totals.deckH} h; ${totals.lostNm} nm lost; sleep ${totals.sleepHPer24H} h per 24 h, ${Math.round(totals.unwatchedMin / 6) / 10} h without look-out: set the alarms.`,
    ...(totals.expectedJobsDone === null
      ? []
      : [
          `With work times as they vary, ${totals.expectedJobsDone.toFixed(1)} of ${plan.jobs.filter(({ status }) => status === 'planned').length} jobs are done inside their limits on average.`,
        ]),
    ...[
      comparisonText(plan),
      plan.waiting?.text ?? null,
      plan.standing?.text ?? null,
      ...(plan.standing?.overdue ?? []).map(({ text }) => text),
    ].filter((text) => text !== null),
    solverText(plan),
  ];
}
