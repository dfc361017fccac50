/** Runs in a process of its own: reads the passage, makes the plan, hands back what the pages show, and ends. */
import { type FoundSoFar, planPassage, type Preparation } from '../lib/planner/index.ts';
import { failed, ok, type Result } from '../lib/result/index.ts';
import { forecastSummary } from './presenters/forecast-summary.ts';
import { afterLog } from './planning-log.ts';
import type { MakingMessage, PlanningTask } from './planning-messages.ts';
import { printOf } from './planning-print.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import { stopped } from './plan-run.ts';
import { sailedWay } from './sailed-way.ts';
import { shownNames } from './shown-names.ts';
import { loadPassageText, type PassageText } from './stores/passage-files.ts';

/** How the making speaks with the server. */
interface Making {
  readonly isCancelled: () => boolean;
  readonly say: (message: MakingMessage) => void;
}

/**
 * Makes the plan and tells it; then nothing is left to do, and the process ends with all it held.
 *
 * @param stopFlag 1 once the plan is no longer wanted
 */
export async function makePlan(task: PlanningTask, stopFlag: Int32Array<SharedArrayBuffer>): Promise<void> {
  const say = (message: MakingMessage): void => void process.send?.(message);
  const last = (message: MakingMessage): void => void process.send?.(message, undefined, {}, () => process.exit());
  try {
    last({ result: await plan(task, { say, isCancelled: () => Atomics.load(stopFlag, 0) !== 0 }) });
  } catch (error) {
    last({ mistake: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}

async function plan(task: PlanningTask, making: Making): Promise<Result<PassageView>> {
  const { isCancelled, say } = making;
  const loaded = await load(task.passage, making);
  if (!loaded.ok) return loaded;
  if (isCancelled()) return failed(stopped);
  const nowEpochMs = loaded.value.passage.fixedNowEpochMs ?? task.nowEpochMs;
  const { forecast, files } = loaded.value;
  const { passage, seenWeather, fromLog } = afterLog(loaded.value, task, nowEpochMs);
  const standing = task.standing === null ? {} : { standing: task.standing };
  const watch = { isCancelled, onProgress: searchProgress(say), onFound: foundReport(say) };
  const planned = planPassage({ passage, forecast, nowEpochMs, seenWeather, ...standing, ...watch });
  if (!planned.ok) return planned;
  const { plan: made, picture, preparation } = planned.value;
  say({ madeFrom: printOf(loaded.value) });
  return ok({
    plan: made,
    picture,
    names: shownNames(passage),
    forecast: forecastSummary({ ...preparation, passage, forecast, files, nowEpochMs }),
    way: sailedWay(passage, { plan: made, picture, now: placeNow(preparation) }),
    before: task.standing,
    isStoppedEarly: isCancelled(),
    ...(task.log.length === 0 ? {} : { fromLog: fromLog() }),
  });
}

/** Where the boat is when the plan begins. */
function placeNow({ nominal, fromSlot }: Preparation): { lat: number; lon: number } {
  return { lat: nominal.lat[fromSlot] ?? Number.NaN, lon: nominal.lon[fromSlot] ?? Number.NaN };
}

/** Says how far the search is; a share that falls back is the beginning of a further search. */
function searchProgress(say: Making['say']): (searchShare: number) => void {
  let searchNumber = 1;
  let lastShare = 0;
  return (searchShare) => {
    if (searchShare < lastShare) searchNumber += 1;
    lastShare = searchShare;
    say({ searchNumber, searchShare });
  };
}

/** Tells of plans with more jobs, or with as many that hold more often: each search begins anew, the best one counts. */
function foundReport(say: Making['say']): (found: FoundSoFar) => void {
  let best: FoundSoFar = { jobCount: 0, holdsShare: 0 };
  return (found) => {
    const isMore = found.jobCount > best.jobCount;
    if (!isMore && (found.jobCount < best.jobCount || found.holdsShare <= best.holdsShare)) return;
    best = found;
    say({ found });
  };
}

/** Reads passage and forecast; a stop asked for meanwhile is heard between two fields. */
async function load(text: PassageText, { say, isCancelled }: Making): ReturnType<typeof loadPassageText> {
  const stopping = new AbortController();
  const onProgress = ({ donePoints, allPoints }: { donePoints: number; allPoints: number }): void => {
    say({ readShare: donePoints / allPoints });
    if (isCancelled()) stopping.abort(new Error('stopped'));
  };
  try {
    return await loadPassageText(text, { onProgress, signal: stopping.signal });
  } catch (error) {
    if (stopping.signal.aborted) return failed(stopped);
    throw error;
  }
}
