/** Runs on a thread of its own: reads the passage, makes the plan, hands back what the pages show, answers questions. */
import { parentPort, workerData } from 'node:worker_threads';
import { type FoundSoFar, planPassage } from '../lib/planner/index.ts';
import { failed, ok, type Result } from '../lib/result/index.ts';
import { answerOf, type Kept, noPlan } from './planning-answers.ts';
import { forecastSummary } from './presenters/forecast-summary.ts';
import { afterLog } from './planning-log.ts';
import type { NumberedQuestion, PlanningMessage, PlanningTask } from './planning-messages.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import { stopped } from './plan-run.ts';
import { sailedWay } from './sailed-way.ts';
import { shownNames } from './shown-names.ts';
import { loadPassageText, type PassageText } from './stores/passage-files.ts';

const given: unknown = workerData;
if (!isTask(given)) throw new Error('the planning thread was started without a task');
const { stopFlag } = given;
const isCancelled = (): boolean => Atomics.load(stopFlag, 0) !== 0;
const say = (message: PlanningMessage): void => parentPort?.postMessage(message);

let kept: Kept | null = null;
say({ result: await plan(given) });
// Questions that came meanwhile were kept by the port, and are answered from here on.
parentPort?.on('message', ({ questionNumber, question }: NumberedQuestion) => {
  try {
    say({ questionNumber, answer: kept === null ? noPlan : answerOf(kept, question) });
  } catch (error) {
    say({ questionNumber, mistake: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});

function isTask(data: unknown): data is PlanningTask {
  return typeof data === 'object' && data !== null && 'passage' in data && 'stopFlag' in data;
}

async function plan(task: PlanningTask): Promise<Result<PassageView>> {
  const loaded = await load(task.passage);
  if (!loaded.ok) return loaded;
  if (isCancelled()) return failed(stopped);
  const nowEpochMs = loaded.value.passage.fixedNowEpochMs ?? task.nowEpochMs;
  const { forecast, files } = loaded.value;
  const { passage, seenWeather, fromLog } = afterLog(loaded.value, task, nowEpochMs);
  const standing = task.standing === null ? {} : { standing: task.standing };
  const watch = { isCancelled, onProgress: searchProgress(), onFound: foundReport() };
  const planned = planPassage({ passage, forecast, nowEpochMs, seenWeather, ...standing, ...watch });
  if (!planned.ok) return planned;
  const { plan: made, picture, preparation, windows } = planned.value;
  kept = { preparation, windows, passage, forecast };
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
function placeNow({ nominal, fromSlot }: Kept['preparation']): { lat: number; lon: number } {
  return { lat: nominal.lat[fromSlot] ?? Number.NaN, lon: nominal.lon[fromSlot] ?? Number.NaN };
}

/** Says how far the search is; a share that falls back is the beginning of a further search. */
function searchProgress(): (searchShare: number) => void {
  let searchNumber = 1;
  let lastShare = 0;
  return (searchShare) => {
    if (searchShare < lastShare) searchNumber += 1;
    lastShare = searchShare;
    say({ searchNumber, searchShare });
  };
}

/** Tells of plans with more jobs, or with as many that hold more often: each search begins anew, the best one counts. */
function foundReport(): (found: FoundSoFar) => void {
  let best: FoundSoFar = { jobCount: 0, holdsShare: 0 };
  return (found) => {
    const isMore = found.jobCount > best.jobCount;
    if (!isMore && (found.jobCount < best.jobCount || found.holdsShare <= best.holdsShare)) return;
    best = found;
    say({ found });
  };
}

/** Reads passage and forecast; a stop asked for meanwhile is heard between two fields. */
async function load(text: PassageText): ReturnType<typeof loadPassageText> {
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
