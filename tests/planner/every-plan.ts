/**
 * The best plan of a tiny world by trying them all: every order, handling and start slot. Shares no code with lib.
 *
 * A world here has one person who never tires, a boat that stays where she is, jobs of one unbroken step each, and a
 * few scenarios (one bit each).
 */
export interface TinyJob {
  readonly id: string;
  readonly priorityWeight: number;
  readonly minutes: number;
  readonly after: readonly string[];
  readonly deckNoGoKn: number;
  /** Mean wind each handling stands. */
  readonly handlingNoGoKn: readonly number[];
}

export interface TinyWorld {
  readonly jobs: readonly TinyJob[];
  /** Wind by scenario and slot. */
  readonly windKn: readonly (readonly number[])[];
  readonly weights: readonly number[];
  readonly wantedWeight: number;
  readonly stepWeight: number;
  readonly slotMin: number;
}

/** Worth of a plan by the two first levels: priority weight done, then joint weight in steps. */
export interface Best {
  readonly priorityWeight: number;
  readonly jointStepCount: number;
  readonly plansSeen: number;
}

/** Set of scenarios in which the wind keeps to a job's limits from a start to the end of its reference period. */
function setOf(world: TinyWorld, job: TinyJob, of: { handlingNoGoKn: number; start: number; slots: number }): number {
  let set = 0;
  for (const [w, windKn] of world.windKn.entries()) {
    let holds = true;
    for (let i = of.start; i <= of.start + of.slots; i++) {
      const kn = Math.fround(windKn[i] ?? Infinity);
      holds &&= kn <= job.deckNoGoKn && kn <= of.handlingNoGoKn;
    }
    if (holds) set |= 1 << w;
  }
  return set;
}

/**
 * Wind of the median scenario at a slot: each scenario told as often as it has thousandths of the whole weight, so that
 * weight counts.
 */
function medianKnAt(world: TinyWorld, start: number): number {
  const all = weightOfSet(world, (1 << world.weights.length) - 1);
  const told = world.windKn.flatMap((windKn, w) =>
    Array.from({ length: Math.round((1000 * (world.weights[w] ?? 0)) / all) }, () =>
      Math.fround(windKn[start] ?? Infinity),
    ),
  );
  const kn = told.toSorted((a, b) => a - b);
  const middle = (kn.length - 1) / 2;
  return ((kn[Math.floor(middle)] ?? 0) + (kn[Math.ceil(middle)] ?? 0)) / 2;
}

const upTo = (minutes: number, slotMin: number): number => Math.ceil(minutes / slotMin - 1e-6);

const weightOfSet = (world: TinyWorld, set: number): number =>
  world.weights.reduce((sum, weight, w) => sum + ((set >> w) & 1) * weight, 0);

/** Goes through every plan; plans that have done the same jobs, by the same slot, in the same scenarios, go on alike. */
export function bestOfAllPlans(world: TinyWorld): Best {
  const slotCount = world.windKn[0]?.length ?? 0;
  const all = (1 << world.weights.length) - 1;
  const medianKn = Array.from({ length: slotCount }, (_, slot) => medianKnAt(world, slot));
  const seen = new Set<string>();
  let best = { priorityWeight: 0, jointStepCount: Math.floor(weightOfSet(world, all) / world.stepWeight + 1e-9) };
  const visit = (done: number, free: number, set: number): void => {
    const key = `${done} ${free} ${set}`;
    if (seen.has(key)) return;
    seen.add(key);
    const priorityWeight = world.jobs.reduce((sum, job, j) => sum + ((done >> j) & 1) * job.priorityWeight, 0);
    const jointStepCount = Math.floor(weightOfSet(world, set) / world.stepWeight + 1e-9);
    const better =
      priorityWeight > best.priorityWeight ||
      (priorityWeight === best.priorityWeight && jointStepCount > best.jointStepCount);
    if (better) best = { priorityWeight, jointStepCount };
    for (const [j, job] of world.jobs.entries()) {
      const ready = job.after.every((id) => (done >> world.jobs.findIndex((other) => other.id === id)) & 1);
      if (((done >> j) & 1) === 1 || !ready) continue;
      for (let start = free; start < slotCount; start++) {
        // The median scenario sets the pace, and beyond the only limit the pace is that of no-go, 1.8 (design page §2).
        const minutes = (medianKn[start] ?? 0) > job.deckNoGoKn ? 1.8 * job.minutes : job.minutes;
        const slots = upTo(minutes + Math.max(minutes / 2, 30), world.slotMin);
        if (start + slots >= slotCount) continue;
        for (const handlingNoGoKn of job.handlingNoGoKn) {
          const left = set & setOf(world, job, { handlingNoGoKn, start, slots });
          if (weightOfSet(world, left) >= world.wantedWeight)
            visit(done | (1 << j), start + upTo(minutes, world.slotMin), left);
        }
      }
    }
  };
  visit(0, 0, all);
  return { ...best, plansSeen: seen.size };
}

/** Numbers in [0, 1) from a seed (mulberry32, public domain). */
function drawing(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** A tiny world drawn from a seed: 2-4 jobs, 24-40 slots, 2-8 scenarios of wandering wind. */
export function tinyWorld(seed: number): TinyWorld {
  const draw = drawing(seed);
  const whole = (from: number, to: number): number => from + Math.floor(draw() * (to - from + 1));
  const slotCount = whole(24, 40);
  const scenarioCount = whole(2, 8);
  const windKn = Array.from({ length: scenarioCount }, () => wanderingWind(draw, slotCount));
  const jobs = Array.from({ length: whole(2, 4) }, (_, j) => ({
    id: `job-${j}`,
    priorityWeight: whole(1, 9),
    minutes: whole(1, 7) * 10,
    after: j > 0 && draw() < 0.3 ? [`job-${whole(0, j - 1)}`] : [],
    deckNoGoKn: whole(7, 20),
    handlingNoGoKn: draw() < 0.5 ? [40] : [whole(6, 12), whole(12, 25)],
  }));
  const weights = Array.from({ length: scenarioCount }, () => whole(50_000, 200_000));
  return normal({
    jobs,
    windKn,
    weights,
    wantedWeight: draw() < 0.5 ? 800_000 : 500_000,
    stepWeight: 20_000,
    slotMin: 10,
  });
}

function wanderingWind(draw: () => number, slotCount: number): number[] {
  let kn = 6 + draw() * 12;
  let trendKn = 0;
  return Array.from({ length: slotCount }, () => {
    trendKn = 0.8 * trendKn + (draw() - 0.5) * 2;
    kn = Math.min(28, Math.max(3, kn + trendKn));
    return Math.round(kn * 10) / 10;
  });
}

/** Weights that sum to a million, none below one. */
function normal(world: TinyWorld): TinyWorld {
  const positive = world.weights.map((weight) => Math.max(50_000, weight));
  const sum = positive.reduce((total, weight) => total + weight, 0);
  const weights = positive.map((weight) => Math.floor((weight * 1_000_000) / sum));
  weights[0] = (weights[0] ?? 0) + 1_000_000 - weights.reduce((total, weight) => total + weight, 0);
  return { ...world, weights };
}
