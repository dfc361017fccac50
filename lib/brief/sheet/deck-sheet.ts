import { didYouMean, failed, ok, type Problem, type Result } from '../../result/index.ts';
import { planTitle } from '../export/job-words.ts';
import { goList } from './go-list.ts';
import { headFacts, standingText, startWarning, windowFacts } from './head.ts';
import { lyingFacts } from './lying.ts';
import { numberRows } from './numbers.ts';
import { partRows, toolLines } from './parts.ts';
import { runningClock } from './running-clock.ts';
import type { DeckSheet, SheetFact } from './sheet.ts';
import { lengthText } from './sheet-times.ts';
import { type SheetInput, sheetWork, type SheetWork } from './sheet-work.ts';
import { abortPlan, hurtCard, stopRules, talkLines } from './stop-rules.ts';

/**
 * The page that is taken on deck for one job.
 *
 * Wind and sea are in knots and metres, over the deck and as the boat's own instrument shows them; figures that bind
 * are the strictest of all steps of the job. A job that is not planned gets its sheet without hours, and says so.
 *
 * @returns the sheet; `sheet.no-such-job` where the passage has no such job, `sheet.not-in-plan` where the plan was
 *   made before the job came into the passage
 */
export function deckSheet(input: SheetInput): Result<DeckSheet> {
  const { jobs } = input.passage;
  const job = jobs.find(({ id }) => id === input.jobId);
  if (job === undefined)
    return failed(
      noSuchJob(
        input.jobId,
        jobs.map(({ id }) => id),
      ),
    );
  const planned = input.plan.jobs.find(({ jobId }) => jobId === job.id);
  if (planned === undefined) return failed(notInPlan(job.id));
  const work = sheetWork(input, job, planned);
  return ok({
    jobId: job.id,
    title: job.name,
    planTitle: planTitle(input.plan),
    standing: standingText(work),
    startWarning: startWarning(work),
    head: headFacts(work),
    window: windowFacts(work),
    why: planned.why,
    numbers: numberRows(work),
    go: goList(work),
    boat: lyingFacts(work),
    steps: runningClock(work),
    stop: stopRules(work),
    abort: abortPlan(work),
    hurt: hurtCard,
    parts: partRows(work),
    tools: toolLines(work),
    talk: talkLines(work),
    after: checks(work),
    cautions: cautionsOf(work),
  });
}

const noSuchJob = (jobId: string, ids: readonly string[]): Problem => {
  const near = didYouMean(jobId, ids);
  return {
    code: 'sheet.no-such-job',
    where: `job ${jobId}`,
    what: `The passage has no job "${jobId}".`,
    expected: ids.length === 0 ? 'a passage with jobs' : `one of ${ids.join(', ')}`,
    remedy: near === null ? 'Name a job by its id.' : `Did you mean "${near}"?`,
  };
};

const notInPlan = (jobId: string): Problem => ({
  code: 'sheet.not-in-plan',
  where: `job ${jobId}`,
  what: `The plan does not know the job "${jobId}": it was made before.`,
  expected: 'a plan of the passage as it is now',
  remedy: 'Make the plan again, then take the sheet.',
});

const CHECK_COUNT = 3;

/** At least three looks, those nobody has described left open. */
function checks({ job }: SheetWork): SheetFact[] {
  const known = job.checksAfter.map(({ afterMin, look }) => ({
    term: afterMin === 0 ? 'At once' : `After ${lengthText(afterMin)}`,
    text: look,
  }));
  const open = Array.from({ length: Math.max(0, CHECK_COUNT - known.length) }, () => ({
    term: 'After ______',
    text: '',
  }));
  return [...known, ...open];
}

/** The usual cautions for its steps; the rest of what every plan says is short here. */
function cautionsOf({ job }: SheetWork): string[] {
  const places = new Set(job.steps.map(({ place }) => place));
  const isOutside = [...places].some((place) => place !== 'below');
  return [
    ...(isOutside ? ['Clip on before leaving the cockpit, and stay clipped on.'] : []),
    ...(places.has('aloft') ? ['Aloft alone: two lines, tools on lanyards, a way down that needs no help.'] : []),
    ...(places.has('overside')
      ? ['Overside alone: a way back on board that works with cold hands, engine stopped, key out.']
      : []),
    ...job.cautions,
    'Advice, not permission: the skipper decides. Flag state, class and race rules and makers’ instructions come first.',
    'No lone look-out satisfies COLREG Rule 5. The marine standard’s 6 h floor and doubled times are not used.',
  ];
}
