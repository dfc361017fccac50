import { failed, ok, type Problem, type Result } from '../../../lib/result/index.ts';
import type { FetchTarget } from '../sources/plan-targets.ts';
import { type CheckedTarget, checkTarget } from './check-target.ts';
import type { Kept, KeptState } from './keep.ts';
import { askedToWait, cancelled } from './problems.ts';
import { placeAfter, promisedOctets } from './range-place.ts';
import { freshState } from './read-index.ts';
import type { Setback, Tried } from './setback.ts';
import type { Workshop } from './request.ts';
import { LONGEST_ASKED_WAIT_MS, waitBeforeTry } from './retry.ts';
import { takeRange } from './take-range.ts';

/** Octets that a try must bring to count as one that got on. */
const WORTHWHILE_OCTETS = 1024;

export interface TargetTask {
  readonly target: FetchTarget;
  readonly fileNumber: number;
  readonly kept: Kept;
}

export interface FetchedTarget extends CheckedTarget {
  readonly missing: readonly string[];
}

/**
 * Fetches a target to its end, over as many tries as bring something, and checks it.
 *
 * @returns what it holds, or the problem that stopped it; what has come stays on disk for the next run, unless it was
 *   found bad
 */
export async function fetchTarget(task: TargetTask, shop: Workshop): Promise<Result<FetchedTarget>> {
  let isPieced = (await task.kept.gotOctets()) > 0;
  for (;;) {
    const whole = await fetchWhole(task, shop);
    if (!whole.ok) return whole;
    shop.meter.setPhase('checking');
    const checked = await checkTarget(task, whole.value.state, shop);
    if (checked.ok) return ok({ ...checked.value, missing: whole.value.state.missing });
    await task.kept.drop();
    isPieced ||= whole.value.tryCount > 1;
    // Pieces that do not fit together are no fault of the source: once more in one go.
    if (!isPieced) return checked;
    isPieced = false;
  }
}

async function fetchWhole(task: TargetTask, shop: Workshop): Promise<Result<{ state: KeptState; tryCount: number }>> {
  const mayFail = shop.limits.tryCount;
  let mostGotOctets = await task.kept.gotOctets();
  let vainCount = 0;
  for (let tryCount = 1; ; tryCount++) {
    if (shop.signal.aborted) return failed(cancelled(task.target.url));
    shop.meter.setPhase('fetching');
    const tried = await tryOnce(task, shop);
    if (tried.ok) return ok({ state: tried.value, tryCount });
    const gotOctets = await task.kept.gotOctets();
    vainCount = gotOctets >= mostGotOctets + WORTHWHILE_OCTETS ? 1 : vainCount + 1;
    mostGotOctets = Math.max(mostGotOctets, gotOctets);
    const { setback } = tried;
    const isOver = !setback.isPassing || vainCount >= mayFail;
    if (shop.signal.aborted) return failed(cancelled(task.target.url));
    if (isOver) return failed(setback.isPassing ? afterTries(setback.problem, tryCount) : setback.problem);
    if ((setback.askedMs ?? 0) > LONGEST_ASKED_WAIT_MS)
      return failed(askedToWait(task.target.url, setback.askedMs ?? 0));
    await waitFor(setback, vainCount, shop);
  }
}

async function waitFor({ askedMs, problem }: Setback, vainCount: number, { world, meter, signal }: Workshop) {
  const waitMs = waitBeforeTry(vainCount, world.random(), askedMs);
  meter.setWait(world.nowEpochMs() + waitMs, problem.what);
  await world.sleep(waitMs, signal);
}

const afterTries = (problem: Problem, tryCount: number): Problem => ({
  ...problem,
  what: `${problem.what} (${tryCount === 1 ? 'one try' : `${tryCount} tries`})`,
});

/** One try: from what is there to the end, or to the first setback. */
async function tryOnce(task: TargetTask, shop: Workshop): Promise<Tried<KeptState>> {
  const { kept } = task;
  let state = await kept.readState();
  const allOctets = state === null || state.isComplete ? null : promisedOctets(state.ranges);
  if (state === null || (allOctets !== null && (await kept.gotOctets()) > allOctets)) {
    await kept.drop();
    const fresh = await freshState(task.target, shop);
    if (!fresh.ok) return fresh;
    state = fresh.value;
    await kept.cut(0);
    await kept.writeState(state);
  }
  await cutToSafePlace(kept, state);
  for (;;) {
    const gotOctets = await kept.gotOctets();
    shop.meter.setFile(task.fileNumber, { gotOctets, allOctets: promisedOctets(state.ranges) });
    const place = state.isComplete ? null : placeAfter(state.ranges, gotOctets);
    if (place === null) return { ok: true, value: state };
    const taken = await takeRange({ ...task, state, place }, shop);
    if (!taken.ok) return taken;
    state = taken.value;
  }
}

/** Without a strong validator the rest of a broken range may be of another state of the file: the range is begun again. */
async function cutToSafePlace(kept: Kept, { ranges, validators, isComplete }: KeptState): Promise<void> {
  if (isComplete || typeof validators?.strong === 'string') return;
  const gotOctets = await kept.gotOctets();
  const place = placeAfter(ranges, gotOctets);
  if (place !== null && gotOctets > place.beforeOctets) await kept.cut(place.beforeOctets);
}
