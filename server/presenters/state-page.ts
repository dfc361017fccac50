import type { Problem } from '../../lib/result/index.ts';
import type { PlanInTheMaking, PlanStanding } from './plan-standing.ts';

/** Any page while there is no plan to show. */
export type StatePage =
  | { readonly kind: 'planning'; readonly text: string; readonly againHref: string; readonly isStopping: boolean }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly problems: readonly Problem[] };

/** What a page shows in place of itself; `href` is its own address, asked for again until the plan is there. */
export function statePage(
  standing: Exclude<PlanStanding, { readonly kind: 'ready' }>,
  asked: { href: string; nowEpochMs: number },
): StatePage {
  if (standing.kind !== 'planning') return standing;
  return {
    kind: 'planning',
    text: `${makingText(standing, asked.nowEpochMs)} The page shows the plan as soon as it is there.`,
    againHref: asked.href,
    isStopping: standing.isStopping === true,
  };
}

/** How far the making of a plan is. */
export function makingText(making: PlanInTheMaking, nowEpochMs: number): string {
  const waitedS = Math.max(0, Math.round((nowEpochMs - making.sinceEpochMs) / 1000));
  return `${progressText(making)}${foundText(making)}${waitedS} s so far.`;
}

/** What is being done; nothing is said of a short file, which is read before anybody looks. */
function progressText({ readShare, searchShare, searchNumber = 1, isStopping }: PlanInTheMaking): string {
  if (isStopping === true) return 'Stopping: the best plan found so far is written up. ';
  if (searchShare !== undefined) {
    return `${searchNumber === 1 ? 'Searching' : `Searching, round ${searchNumber}`}: ${percent(searchShare)} done. `;
  }
  return readShare === undefined || readShare >= 1 ? '' : `Reading the forecast: ${percent(readShare)}. `;
}

/** The best plan found so far, before it is judged on fresh scenarios. */
function foundText({ found, isStopping }: PlanInTheMaking): string {
  if (found === undefined || found.jobCount === 0 || isStopping === true) return '';
  const jobs = found.jobCount === 1 ? '1 job that holds' : `${found.jobCount} jobs that hold together`;
  return `Found by now: ${jobs} in ${Math.floor(found.holdsShare * 100)} of 100 scenarios. `;
}

const percent = (share: number): string => `${Math.floor(Math.min(1, Math.max(0, share)) * 100)} %`;
