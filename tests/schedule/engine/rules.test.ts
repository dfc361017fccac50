import { describe, expect, it } from 'vitest';
import { solveSchedule } from '../../../lib/schedule/index.ts';
import type { LittleWorld } from './little-problem.ts';
import { inWords, littleProblem, littleRest } from './little-problem.ts';

// Each problem is so small that its best plan can be read off.

const solve = (world: LittleWorld) => {
  const solution = solveSchedule(littleProblem(world));
  expect(solution.proven).toBe(true);
  return solution;
};
const plan = (world: LittleWorld): string => inWords(solve(world).entries);

/** Cheapest at once, dearer by one each slot. */
const soon = (t: number): number => t;

describe('solveSchedule, order', () => {
  it('a task after another with a wait: starts when the wait is over', () => {
    const tasks = [
      { choices: [{ slots: 2, cost: soon }] },
      { after: [{ task: 0, waitSlots: 3 }], choices: [{ slots: 1, cost: soon }] },
    ];
    expect(plan({ slots: 10, tasks })).toBe('0@0-2 1@5-6');
  });

  it('two waits after one task: each follower keeps its own', () => {
    const tasks = [
      { choices: [{ slots: 1, cost: soon }] },
      { after: [{ task: 0, waitSlots: 2 }], choices: [{ slots: 1, cost: soon }] },
      { after: [{ task: 0, waitSlots: 5 }], choices: [{ slots: 1, cost: soon }] },
    ];
    expect(plan({ slots: 10, tasks })).toBe('0@0-1 1@3-4 2@6-7');
  });

  it('a wait longer than the weather lasts: the follower stays undone, the first is done', () => {
    const tasks = [
      { choices: [{ slots: 1 }] },
      { after: [{ task: 0, waitSlots: 6 }], choices: [{ slots: 1, opens: (t: number) => t < 6 }] },
    ];
    const { worth, entries } = solve({ slots: 10, tasks });
    expect(worth.priorityWeight).toBe(1);
    expect(entries.map((entry) => (entry.kind === 'work' ? entry.task : -1))).toEqual([0]);
  });

  it('a first finish that is cheap but too late for the follower: gives way', () => {
    const tasks = [
      { choices: [{ slots: 1, cost: (t: number) => (t === 4 ? 0 : 50) }] },
      { after: [{ task: 0, waitSlots: 3 }], choices: [{ slots: 1, opens: (t: number) => t <= 6 }] },
    ];
    const { worth } = solve({ slots: 10, tasks });
    expect(worth).toMatchObject({ priorityWeight: 2, costPoints: 50 });
  });
});

describe('solveSchedule, tools held', () => {
  const first = { choices: [{ slots: 1, cost: soon }] };

  it('a tool held after a task: the other starts when it is free', () => {
    const tasks = [{ ...first, holdsTools: [{ task: 1, slots: 4 }] }, { choices: [{ slots: 1, cost: soon }] }];
    expect(plan({ slots: 10, tasks })).toBe('1@0-1 0@1-2');
    const opens = (t: number): boolean => t > 0;
    const later = [tasks[0] ?? first, { choices: [{ slots: 1, cost: soon, opens }] }];
    expect(plan({ slots: 10, tasks: later })).toBe('1@1-2 0@2-3');
    const muchLater = [tasks[0] ?? first, { choices: [{ slots: 1, cost: soon, opens: (t: number) => t > 3 }] }];
    expect(plan({ slots: 10, tasks: muchLater })).toBe('0@0-1 1@5-6');
  });

  it('a tool held until the weather of the other is over: only the heavier job', () => {
    const tasks = [
      { choices: [{ slots: 1, opens: (t: number) => t === 0 }], holdsTools: [{ task: 1, slots: 5 }] },
      { choices: [{ slots: 1, opens: (t: number) => t === 3 }] },
    ];
    const jobs = [1, 2].map((priorityWeight, task) => ({ tasks: [task], priorityWeight, conditional: false }));
    expect(plan({ slots: 10, tasks, jobs })).toBe('1@3-4');
  });
});

describe('solveSchedule, sessions', () => {
  const units = (count: number, onlyToFinish = false) => ({ units: count, onlyToFinish, slots: count, cost: soon });

  it('sessions of two units of five, a single one only to finish: two, two, one', () => {
    const tasks = [{ units: 5, choices: [units(2), units(1, true)] }];
    const { entries } = solve({ slots: 9, tasks });
    expect(inWords(entries)).toBe('0@0-2 0@2-4 0@4-5');
    expect(entries.map((entry) => entry.kind === 'work' && entry.finishes)).toEqual([false, false, true]);
  });

  it('a rest between sessions: kept before the same task, not before another, and not after the last', () => {
    const tasks = [
      { units: 2, restSlots: 3, choices: [{ units: 1, slots: 1, cost: (t: number) => 5 * t }] },
      { choices: [{ slots: 1, cost: soon }] },
      { after: [{ task: 0, waitSlots: 0 }], choices: [{ slots: 1, cost: soon }] },
    ];
    expect(plan({ slots: 9, tasks })).toBe('0@0-1 1@1-2 0@4-5 2@5-6');
  });

  it('a rest longer than the weather: one session that does it all, though dearer', () => {
    const session = (count: number, cost: number) => ({
      units: count,
      slots: count,
      cost: () => cost,
      opens: (t: number) => t < 4,
    });
    expect(plan({ slots: 9, tasks: [{ units: 2, restSlots: 2, choices: [session(1, 0), session(2, 9)] }] })).toBe(
      '0@0-1 0@3-4',
    );
    expect(plan({ slots: 9, tasks: [{ units: 2, restSlots: 3, choices: [session(1, 0), session(2, 9)] }] })).toBe(
      '0@0-2',
    );
  });

  it('a choice only to finish, and no other: the task of more units cannot be begun', () => {
    expect(plan({ slots: 9, tasks: [{ units: 2, choices: [units(1, true)] }] })).toBe('');
  });

  it('configs after a session and after the last: the change is paid only where it is due', () => {
    const session = { ...units(1), configAfter: 0, configFinished: 1, changeSlots: [0, 0] };
    const tasks = [
      { units: 2, choices: [session] },
      { after: [{ task: 0, waitSlots: 0 }], choices: [{ slots: 1, changeSlots: [0, 3], cost: soon }] },
    ];
    expect(plan({ slots: 9, tasks, configCount: 2 })).toBe('0@0-1 0@1-2 1@2-6');
  });
});

describe('solveSchedule, configs', () => {
  it('a choice that is not offered in the config at hand: the other is taken', () => {
    const tasks = [
      {
        choices: [
          { slots: 1, changeSlots: [-1, 0] },
          { slots: 2, changeSlots: [0, -1] },
        ],
      },
    ];
    expect(solve({ slots: 5, tasks, configCount: 2 }).entries[0]).toMatchObject({ choice: 1 });
  });

  it('a handling that waiting ends: the next task follows at once, without a change', () => {
    const tasks = [
      { choices: [{ slots: 1, changeSlots: [2, 0], configAfter: 1, opens: (t: number) => t === 2 }] },
      { choices: [{ slots: 1, changeSlots: [2, 0], configAfter: 1, opens: (t: number) => t === 3 }] },
    ];
    expect(plan({ slots: 9, tasks, configCount: 2, afterWait: [0, 0] })).toBe('0@0-3 1@3-4');
  });

  it('end cost by config and instant: the plan waits on to where it ends cheapest', () => {
    const tasks = [{ choices: [{ slots: 1, configAfter: 1, changeSlots: [0, 0], cost: soon }] }];
    const endCost = (config: number, t: number): number => (config === 1 ? 40 : t >= 3 ? 7 : 20);
    const { worth } = solve({ slots: 6, tasks, configCount: 2, afterWait: [0, 0], endCost });
    expect(worth.costPoints).toBe(7);
  });
});

describe('solveSchedule, rest', () => {
  it('alertness too low at the end of the work: a sleep comes first', () => {
    const rest = littleRest(10, { startS: 4 });
    const tasks = [{ choices: [{ slots: 2, gate: { leastEndPoints: 4 }, cost: soon }] }];
    expect(plan({ slots: 10, tasks, rest })).toBe('sleep@0-2 0@3-5');
  });

  it('alertness at the beginning: counted after the change', () => {
    const rest = littleRest(10, { startS: 6, sleepSlots: [] });
    const task = (changeSlots: number) => ({
      choices: [{ slots: 1, changeSlots: [changeSlots], gate: { leastStartPoints: 5 } }],
    });
    expect(plan({ slots: 5, tasks: [task(1)], rest })).toBe('0@0-2');
    expect(plan({ slots: 5, tasks: [task(2)], rest })).toBe('');
  });

  it('rhythm: adds to S at the instant', () => {
    const rhythmPoints = Float64Array.from({ length: 11 }, (_, t) => (t >= 5 ? 6 : 0));
    const rest = littleRest(10, { startS: 5, sleepSlots: [], rhythmPoints });
    const tasks = [{ choices: [{ slots: 1, gate: { leastStartPoints: 6 }, cost: soon }] }];
    expect(plan({ slots: 10, tasks, rest })).toBe('0@5-6');
  });

  it('slots awake at the end above the limit: only after a sleep, however alert', () => {
    const rest = littleRest(12, { startS: 99, startWokeSlot: -5 });
    const tasks = [{ choices: [{ slots: 3, gate: { longestAwakeSlots: 6 }, cost: soon }] }];
    expect(plan({ slots: 12, tasks, rest })).toBe('sleep@0-2 0@3-6');
  });

  it('inertia: work begins so many slots after waking as sleep and hour ask', () => {
    const inertiaSlots = [Int16Array.from({ length: 2 * 13 }, (_, i) => (i < 13 ? 2 : 6))];
    const rest = littleRest(12, { startS: 0, sleepSlots: [2, 4], startClearSlots: new Int32Array(1), inertiaSlots });
    const tasks = [{ choices: [{ slots: 1, gate: { leastEndPoints: 1, inertiaClass: 0 }, cost: soon }] }];
    expect(plan({ slots: 12, tasks, rest })).toBe('sleep@0-2 0@4-5');
  });

  it('inertia from before the plan: holds back the first work', () => {
    const rest = littleRest(9, {
      startClearSlots: Int32Array.from([3]),
      inertiaSlots: [new Int16Array(10)],
      sleepSlots: [],
    });
    const tasks = [{ choices: [{ slots: 1, gate: { inertiaClass: 0 }, cost: soon }] }];
    expect(plan({ slots: 9, tasks, rest })).toBe('0@3-4');
  });

  it('sleep not allowed in a slot: the sleep moves past it', () => {
    const sleepAllowed = Uint8Array.from([1, 0, 1, 1, 1, 1, 1, 1, 1, 1]);
    const rest = littleRest(10, { startS: 4, sleepAllowed });
    const tasks = [{ choices: [{ slots: 1, gate: { leastEndPoints: 4 }, cost: soon }] }];
    expect(plan({ slots: 10, tasks, rest })).toBe('sleep@2-4 0@5-6');
  });

  it('least S at the end: a sleep follows the work, at the cheapest hour', () => {
    const sleepCostPoints = Int32Array.from({ length: 10 }, (_, t) => (t === 3 || t === 4 ? 1 : 9));
    const rest = littleRest(10, { startS: 6, leastEndS: 5, sleepCostPoints });
    const tasks = [{ choices: [{ slots: 2, cost: soon }] }];
    const { entries, worth } = solve({ slots: 10, tasks, rest });
    expect(inWords(entries)).toBe('0@0-2 sleep@3-5');
    expect(worth.costPoints).toBe(2);
  });

  it('an end reserve that no sleep reaches: no plan, proven', () => {
    const rest = littleRest(6, { startS: 0, leastEndS: 50 });
    expect(solve({ slots: 6, tasks: [{ choices: [{ slots: 1 }] }], rest })).toMatchObject({
      entries: [],
      worth: { priorityWeight: 0, jointWeight: 0 },
    });
  });

  it('a history rule that asks for a sleep: the plan has it, and is proven when nothing was refused that could be better', () => {
    const rest = littleRest(8, { refusesHistory: (_choice, _begin, sleeps) => sleeps.length === 0 });
    const tasks = [{ choices: [{ slots: 1 }] }];
    const solution = solveSchedule(littleProblem({ slots: 8, tasks, rest }));
    expect(solution.worth.priorityWeight).toBe(1);
    expect(solution.entries[0]?.kind).toBe('sleep');
    expect(solution.provenProbability).toBe(true);
  });
});

describe('solveSchedule, lag', () => {
  it('weather that is better further back: the boat falls behind before the work', () => {
    const tasks = [{ choices: [{ slots: 1, opens: (_t: number, row: number) => row >= 2 }] }];
    const { entries, worth } = solve({ slots: 6, tasks, lags: 4, waitLoss: () => 1, costPerQuantum: 5 });
    expect(entries[0]).toMatchObject({ beginSlot: 2, lag: 2 });
    expect(worth.costPoints).toBe(10);
  });

  it('loss beyond the last lag: served by it, and charged in full', () => {
    const tasks = [
      { choices: [{ slots: 1, loss: () => 7 }] },
      { after: [{ task: 0, waitSlots: 0 }], choices: [{ slots: 1, cost: (_t: number, row: number) => row * 100 }] },
    ];
    const { worth, entries } = solve({ slots: 4, tasks, lags: 3, costPerQuantum: 2 });
    expect(entries[1]).toMatchObject({ lag: 2 });
    expect(worth.costPoints).toBe(7 * 2 + 200);
  });

  it('a gain from lag 0: given back in cost, the lag stays 0', () => {
    const tasks = [
      { choices: [{ slots: 1, loss: () => -2 }] },
      { after: [{ task: 0, waitSlots: 0 }], choices: [{ slots: 1, cost: (_t: number, row: number) => row * 100 }] },
    ];
    const { worth, entries } = solve({ slots: 4, tasks, lags: 3, costPerQuantum: 2 });
    expect(entries[1]).toMatchObject({ lag: 0 });
    expect(worth.costPoints).toBe(-4);
  });
});

describe('solveSchedule, scenarios', () => {
  const inScenarios =
    (...sets: readonly (readonly number[])[]) =>
    (t: number): readonly number[] =>
      sets[t] ?? [];

  it('two tasks good in half the scenarios each: the halves that overlap are chosen', () => {
    const tasks = [
      { choices: [{ slots: 1, holds: inScenarios([0, 1], [2, 3]) }] },
      { choices: [{ slots: 1, holds: inScenarios([], [], [2, 3], [1, 2]) }] },
    ];
    const { worth, mask } = solve({ slots: 4, tasks, weights: [1, 1, 1, 1] });
    expect(worth).toMatchObject({ priorityWeight: 2, jointWeight: 2 });
    expect([...mask]).toEqual([0b1100]);
  });

  it('unequal weights: the heavier scenario counts, not the number', () => {
    const tasks = [{ choices: [{ slots: 1, holds: inScenarios([0, 1], [2]) }] }];
    const { worth } = solve({ slots: 2, tasks, weights: [2, 3, 9] });
    expect(worth.jointWeight).toBe(9);
  });

  it('joint weight below the needed one: the lesser job stays undone', () => {
    const tasks = [
      { choices: [{ slots: 1, holds: () => [0, 1, 2] }] },
      { choices: [{ slots: 1, holds: () => [2, 3] }] },
    ];
    const jobs = [
      { tasks: [0], priorityWeight: 1, conditional: false },
      { tasks: [1], priorityWeight: 5, conditional: false },
    ];
    const { worth } = solve({ slots: 4, tasks, jobs, weights: [1, 1, 1, 1], needed: 2 });
    expect(worth).toMatchObject({ priorityWeight: 5, jointWeight: 2 });
  });

  it('two starts within one step of joint weight: the cheaper one', () => {
    const tasks = [
      {
        choices: [
          { slots: 1, holds: inScenarios([0, 1, 2, 3, 4], [0, 1, 2, 3]), cost: (t: number) => (t === 0 ? 9 : 1) },
        ],
      },
    ];
    const weights = [1, 1, 1, 1, 1, 1];
    expect(solve({ slots: 2, tasks, weights, step: 2 }).worth).toMatchObject({ jointWeight: 4, costPoints: 1 });
    expect(solve({ slots: 2, tasks, weights, step: 1 }).worth).toMatchObject({ jointWeight: 5, costPoints: 9 });
  });

  it.each([33, 70])('%i scenarios: the last one counts', (count) => {
    const last = count - 1;
    const tasks = [
      { choices: [{ slots: 1, holds: inScenarios([0, last], [0, 1]) }] },
      { choices: [{ slots: 1, holds: inScenarios([], [], [last]) }] },
    ];
    const weights = Array.from({ length: count }, () => 1);
    const { worth, mask } = solve({ slots: 3, tasks, weights });
    expect(worth).toMatchObject({ priorityWeight: 2, jointWeight: 1 });
    expect((mask[last >> 5] ?? 0) >>> (last & 31)).toBe(1);
  });

  it('a needed weight above that of all scenarios: nothing is done', () => {
    const tasks = [{ choices: [{ slots: 1 }] }];
    expect(solve({ slots: 2, tasks, weights: [1, 1], needed: 3 })).toMatchObject({
      entries: [],
      worth: { priorityWeight: 0, jointWeight: 2 },
    });
  });

  it('a conditional job: done, and narrows nothing', () => {
    const tasks = [
      { choices: [{ slots: 1, holds: () => [0, 1, 2] }] },
      { choices: [{ slots: 1, holds: () => [1, 3] }] },
    ];
    const jobs = [
      { tasks: [0], priorityWeight: 1, conditional: false },
      { tasks: [1], priorityWeight: 4, conditional: true },
    ];
    const { worth } = solve({ slots: 3, tasks, jobs, weights: [1, 1, 1, 1], needed: 2 });
    expect(worth).toMatchObject({ priorityWeight: 1, jointWeight: 3, conditionalWeight: 4 });
  });

  it('a conditional job below the needed weight by itself: stays undone', () => {
    const tasks = [{ choices: [{ slots: 1, holds: () => [1] }] }];
    const jobs = [{ tasks: [0], priorityWeight: 4, conditional: true }];
    expect(solve({ slots: 3, tasks, jobs, weights: [1, 1], needed: 2 }).worth.conditionalWeight).toBe(0);
  });

  it('a conditional job against the joint weight of the others: gives way', () => {
    const tasks = [
      { choices: [{ slots: 2, holds: inScenarios([0, 1, 2], [0]) }] },
      { choices: [{ slots: 2, opens: (t: number) => t === 0 }] },
    ];
    const jobs = [
      { tasks: [0], priorityWeight: 1, conditional: false },
      { tasks: [1], priorityWeight: 9, conditional: true },
    ];
    const { worth } = solve({ slots: 4, tasks, jobs, weights: [1, 1, 1] });
    expect(worth).toMatchObject({ jointWeight: 3, conditionalWeight: 0 });
  });
});

describe('solveSchedule, cost and partial plans', () => {
  it('a job of two tasks of which one cannot be done: not done, and no work on it is left in the plan', () => {
    const tasks = [{ choices: [{ slots: 1, cost: () => 3 }] }, { choices: [{ slots: 1, opens: () => false }] }];
    const jobs = [{ tasks: [0, 1], priorityWeight: 1, conditional: false }];
    expect(solve({ slots: 4, tasks, jobs })).toMatchObject({
      entries: [],
      worth: { priorityWeight: 0, costPoints: 0 },
    });
  });

  it('jobs that do not all fit: the heavier ones', () => {
    const tasks = [2, 3, 2].map((slots) => ({ choices: [{ slots }] }));
    const jobs = [3, 4, 2].map((priorityWeight, task) => ({ tasks: [task], priorityWeight, conditional: false }));
    expect(solve({ slots: 5, tasks, jobs }).worth.priorityWeight).toBe(7);
  });

  it('finish cost: the order of least total', () => {
    const tasks = [
      { choices: [{ slots: 3 }], finishCost: (t: number) => t },
      { choices: [{ slots: 1 }], finishCost: (t: number) => 5 * t },
    ];
    const { entries, worth } = solve({ slots: 6, tasks });
    expect(inWords(entries)).toBe('1@0-1 0@1-4');
    expect(worth.costPoints).toBe(9);
  });

  it('nothing to do: the empty plan, in every scenario', () => {
    expect(solve({ slots: 3, tasks: [], weights: [2, 3] })).toMatchObject({
      entries: [],
      worth: { priorityWeight: 0, jointWeight: 5, conditionalWeight: 0, costPoints: 0 },
    });
  });
});
