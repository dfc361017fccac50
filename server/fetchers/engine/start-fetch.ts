import { rmdir } from 'node:fs/promises';
import { QUANTITIES, quantityOf } from '../../../lib/forecast/index.ts';
import { failed, ok, type Problem, type Result } from '../../../lib/result/index.ts';
import { fetchTarget, type FetchedTarget } from './fetch-target.ts';
import { putAway } from './finish.ts';
import { type Kept, keptIn, prepareKeepFolder, takeLock } from './keep.ts';
import { type FetchProgress, makeMeter, type Meter } from './meter.ts';
import { tokenBucket } from './pace.ts';
import { beingFetched, cannotKeep, nothingRead, quantityMissing } from './problems.ts';
import type { FetchedForecast, FetchRequest, Workshop } from './request.ts';
import { realWorld, type World } from './world.ts';

/** A fetch under way. */
export interface FetchJob {
  /** How far it is now. */
  progress(): FetchProgress;
  /** Stops it; what has come stays for the next fetch of the same. */
  cancel(): void;
  /** Resolves when it has ended, well or not; never fails. */
  readonly finished: Promise<Result<FetchedForecast>>;
}

/**
 * Starts to fetch a forecast: files one after the other over one line, each resumed where it broke, checked, and all of
 * them put together into the store or a file. Nothing enters either unless every file was found good.
 *
 * Problems are those of `problems.ts` (`fetch.…`), of the index and of the store.
 */
export function startFetch(request: FetchRequest, world: World = realWorld): FetchJob {
  const controller = new AbortController();
  const meter = makeMeter(
    request.targets.map(({ typicalOctets }) => typicalOctets),
    world,
  );
  const { signal } = controller;
  const finished = fetchAll(request, { world, meter, signal })
    .catch((error: unknown) => failed(diskProblem(error, request.keepFolder)))
    .then((result) => {
      meter.setPhase(result.ok ? 'done' : endPhase(result.problems));
      return result;
    });
  return {
    progress: () => meter.progress(),
    cancel: () => {
      controller.abort();
    },
    finished,
  };
}

const endPhase = (problems: readonly Problem[]): 'cancelled' | 'failed' =>
  problems.some(({ code }) => code === 'fetch.cancelled') ? 'cancelled' : 'failed';

interface Doing {
  readonly world: World;
  readonly meter: Meter;
  readonly signal: AbortSignal;
}

async function fetchAll(request: FetchRequest, doing: Doing): Promise<Result<FetchedForecast>> {
  await prepareKeepFolder(request.keepFolder, doing.world.nowEpochMs());
  const kepts = request.targets.map((target) => keptIn(request.keepFolder, target));
  const locks: (() => Promise<void>)[] = [];
  try {
    for (const [index, kept] of kepts.entries()) {
      const release = await takeLock(kept);
      if (release === null) return failed(beingFetched(request.targets[index]?.url ?? ''));
      locks.push(release);
    }
    const fetched = await fetchEach(request, kepts, doing);
    if (!fetched.ok) return fetched;
    return await accept(request, { kepts, fetched: fetched.value }, doing);
  } finally {
    for (const release of locks) await release();
    // Beside a file the folder was made for this fetch alone; with something in it, it stays.
    if (request.destination.kind === 'file') await rmdir(request.keepFolder).catch(() => null);
  }
}

async function fetchEach(
  { targets, limits }: FetchRequest,
  kepts: readonly Kept[],
  doing: Doing,
): Promise<Result<readonly FetchedTarget[]>> {
  const fetched: FetchedTarget[] = [];
  const shop: Workshop = {
    ...doing,
    limits,
    pace: tokenBucket(limits.mostOctetsPerS, doing.world),
    otherOctets: () => fetched.reduce((sum, { sizeOctets }) => sum + sizeOctets, 0),
  };
  for (const [index, kept] of kepts.entries()) {
    doing.meter.setFile(index + 1, { gotOctets: await kept.gotOctets(), allOctets: null });
  }
  for (const [index, target] of targets.entries()) {
    const kept = kepts[index];
    if (kept === undefined) throw new Error('a target without a place to keep it');
    const one = await fetchTarget({ target, fileNumber: index + 1, kept }, shop);
    if (!one.ok) return one;
    fetched.push(one.value);
  }
  return ok(fetched);
}

async function accept(
  request: FetchRequest,
  { kepts, fetched }: { kepts: readonly Kept[]; fetched: readonly FetchedTarget[] },
  { world, meter }: Doing,
): Promise<Result<FetchedForecast>> {
  meter.setPhase('storing');
  const found = new Set(fetched.flatMap(({ quantities }) => quantities));
  const missing = request.mustHold.filter((id) => !found.has(id));
  const problem = found.size === 0 ? nothingRead(request.fileName) : missingProblem(request.fileName, missing);
  if (problem !== null) {
    for (const kept of kepts) await kept.drop();
    return failed(problem);
  }
  const forecast = {
    fileName: request.fileName,
    atEpochMs: world.nowEpochMs(),
    mostOctets: request.limits.mostOctets,
  };
  const paths = kepts.filter((_, index) => (fetched[index]?.sizeOctets ?? 0) > 0).map(({ partPath }) => partPath);
  const joined = await putAway(paths, request.destination, forecast);
  if (!joined.ok) return joined;
  for (const kept of kepts) await kept.drop();
  return ok({
    ...joined.value,
    fieldCount: fetched.reduce((sum, { fieldCount }) => sum + fieldCount, 0),
    quantities: QUANTITIES.map(({ id }) => id).filter((id) => found.has(id)),
    missing: missingNotes(fetched),
  });
}

const missingProblem = (where: string, missing: FetchRequest['mustHold']): Problem | null =>
  missing.length === 0
    ? null
    : quantityMissing(
        where,
        missing.map((id) => quantityOf(id).name),
      );

/** `rain in 1 of 41 files` */
function missingNotes(fetched: readonly FetchedTarget[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const name of fetched.flatMap(({ missing }) => missing)) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts].map(([name, count]) => `${name} in ${count} of ${fetched.length} files`);
}

/** Failures of the disk become a problem; everything else is a mistake of ours and is told as one. */
function diskProblem(error: unknown, folder: string): Problem {
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (!/^E[A-Z]+$/.test(code)) throw error;
  return cannotKeep(folder, code);
}
