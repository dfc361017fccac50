import { describe, expect, it } from 'vitest';
import type { ScheduleEntry } from '../../../lib/schedule/index.ts';
import { simulateSchedule } from '../../../lib/schedule/index.ts';
import type { LittleWorld } from './little-problem.ts';
import { littleProblem, littleRest } from './little-problem.ts';

interface GivenWork {
  readonly task?: number;
  readonly start: number;
  readonly end: number;
  readonly begin?: number;
  readonly lag?: number;
  readonly finishes?: boolean;
}

const work = ({ task = 0, start, end, begin = start, lag = 0, finishes = true }: GivenWork): ScheduleEntry => ({
  kind: 'work',
  task,
  choice: 0,
  startSlot: start,
  beginSlot: begin,
  endSlot: end,
  lag,
  finishes,
});
const sleep = (startSlot: number, wokeSlot: number): ScheduleEntry => ({
  kind: 'sleep',
  startSlot,
  wokeSlot,
  endSlot: wokeSlot + 1,
});
const run = (world: LittleWorld, entries: readonly ScheduleEntry[]) => simulateSchedule(littleProblem(world), entries);

const oneTask = [{ choices: [{ slots: 2 }] }];
const twoTasks = [{ choices: [{ slots: 2 }] }, { after: [{ task: 0, waitSlots: 2 }], choices: [{ slots: 1 }] }];
const gated = (gate: object) => [{ choices: [{ slots: 2, gate }] }];

const broken: readonly (readonly [string, string, number, LittleWorld, readonly ScheduleEntry[]])[] = [
  [
    'two entries at once',
    'overlap',
    1,
    { slots: 9, tasks: twoTasks },
    [work({ start: 1, end: 3 }), work({ task: 1, start: 2, end: 3 })],
  ],
  ['an end after the last slot', 'horizon', 0, { slots: 2, tasks: oneTask }, [work({ start: 1, end: 3 })]],
  [
    'a follower before its wait is over',
    'precedence',
    1,
    { slots: 9, tasks: twoTasks },
    [work({ start: 0, end: 2 }), work({ task: 1, start: 3, end: 4 })],
  ],
  [
    'a tool still held by another task',
    'precedence',
    1,
    {
      slots: 9,
      tasks: [{ choices: [{ slots: 2 }], holdsTools: [{ task: 1, slots: 3 }] }, { choices: [{ slots: 1 }] }],
    },
    [work({ start: 0, end: 2 }), work({ task: 1, start: 4, end: 5 })],
  ],
  [
    'a session before the rest since the last is over',
    'precedence',
    1,
    { slots: 9, tasks: [{ units: 2, restSlots: 2, choices: [{ slots: 1 }] }] },
    [work({ start: 0, end: 1, finishes: false }), work({ start: 2, end: 3 })],
  ],
  ['a follower alone', 'precedence', 0, { slots: 9, tasks: twoTasks }, [work({ task: 1, start: 3, end: 4 })]],
  [
    'a task done twice',
    'refused',
    1,
    { slots: 9, tasks: oneTask },
    [work({ start: 0, end: 2 }), work({ start: 2, end: 4 })],
  ],
  ['a duration not in the table', 'refused', 0, { slots: 9, tasks: oneTask }, [work({ start: 0, end: 3 })]],
  [
    'a start the table refuses',
    'refused',
    0,
    { slots: 9, tasks: [{ choices: [{ slots: 2, opens: () => false }] }] },
    [work({ start: 0, end: 2 })],
  ],
  [
    'another lag than the boat has',
    'refused',
    0,
    { slots: 9, lags: 3, waitLoss: () => 1, tasks: oneTask },
    [work({ start: 1, end: 3, lag: 0 })],
  ],
  [
    'a change shorter than the config asks',
    'config',
    0,
    { slots: 9, tasks: [{ choices: [{ slots: 2, changeSlots: [1] }] }] },
    [work({ start: 0, end: 2 })],
  ],
  [
    'a choice not offered in the config',
    'config',
    0,
    { slots: 9, tasks: [{ choices: [{ slots: 2, changeSlots: [-1] }] }] },
    [work({ start: 0, end: 2 })],
  ],
  [
    'no scenario left',
    'weather',
    0,
    { slots: 9, tasks: [{ choices: [{ slots: 2, holds: () => [] }] }] },
    [work({ start: 0, end: 2 })],
  ],
  [
    'a conditional job below the needed weight',
    'weather',
    0,
    {
      slots: 9,
      weights: [1, 1],
      needed: 2,
      tasks: [{ choices: [{ slots: 2, holds: () => [0] }] }],
      jobs: [{ tasks: [0], priorityWeight: 1, conditional: true }],
    },
    [work({ start: 0, end: 2 })],
  ],
  [
    'too tired at the end',
    'alertness',
    0,
    { slots: 9, tasks: gated({ leastEndPoints: 9 }), rest: littleRest(9) },
    [work({ start: 0, end: 2 })],
  ],
  [
    'too tired at the beginning',
    'alertness',
    0,
    { slots: 9, tasks: gated({ leastStartPoints: 10 }), rest: littleRest(9) },
    [work({ start: 1, end: 3 })],
  ],
  [
    'awake too long',
    'awake',
    0,
    { slots: 9, tasks: gated({ longestAwakeSlots: 4 }), rest: littleRest(9) },
    [work({ start: 3, end: 5 })],
  ],
  [
    'just awake',
    'inertia',
    1,
    {
      slots: 9,
      tasks: gated({ inertiaClass: 0 }),
      rest: littleRest(9, { startClearSlots: new Int32Array(1), inertiaSlots: [new Int16Array(10).fill(3)] }),
    },
    [sleep(0, 2), work({ start: 3, end: 5 })],
  ],
  [
    'a rule on the sleeps so far',
    'history',
    1,
    { slots: 9, tasks: oneTask, rest: littleRest(9, { refusesHistory: (_c, _t, sleeps) => sleeps.length === 1 }) },
    [sleep(0, 2), work({ start: 3, end: 5 })],
  ],
  [
    'sleep where none is allowed',
    'sleep-not-allowed',
    0,
    { slots: 9, tasks: oneTask, rest: littleRest(9, { sleepAllowed: new Uint8Array(9) }) },
    [sleep(0, 2)],
  ],
  ['a sleep of another length', 'refused', 0, { slots: 9, tasks: oneTask, rest: littleRest(9) }, [sleep(0, 4)]],
  [
    'too little S at the end',
    'end-reserve',
    1,
    { slots: 9, tasks: oneTask, rest: littleRest(9, { leastEndS: 9 }) },
    [work({ start: 0, end: 2 })],
  ],
];

describe('simulateSchedule', () => {
  it.each(broken)('%s: %s', (...row) => {
    const [, rule, at, world, entries] = row;
    expect(run(world, entries)).toEqual({ ok: false, at, rule });
  });

  it('a plan within every rule: its worth, scenarios, lag and S', () => {
    const tasks = [
      { choices: [{ slots: 2, cost: () => 4, loss: () => 1, holds: () => [0, 2] }], finishCost: (t: number) => t },
    ];
    const world = {
      slots: 4,
      lags: 9,
      weights: [1, 2, 4],
      tasks,
      rest: littleRest(4),
      waitLoss: () => 1,
      costPerQuantum: 10,
    };
    expect(run(world, [work({ start: 1, end: 3, lag: 1 })])).toEqual({
      ok: true,
      // 10 for a slot of waiting, 4 and 10 for the work and its loss, 3 for finishing at 3.
      worth: { priorityWeight: 1, jointWeight: 5, conditionalWeight: 0, costPoints: 27 },
      mask: Int32Array.from([0b101]),
      lagAtEnd: 2,
      sAtEnd: 7,
    });
  });

  it('joint weight below the needed one: the jobs count for nothing', () => {
    const tasks = [{ choices: [{ slots: 1, holds: () => [0] }] }];
    expect(run({ slots: 2, tasks, weights: [1, 1], needed: 2 }, [work({ start: 0, end: 1 })])).toMatchObject({
      ok: true,
      worth: { priorityWeight: 0, jointWeight: 1 },
    });
  });

  it('a tool free again, and a rest between sessions over: allowed from that instant', () => {
    const held = [{ choices: [{ slots: 2 }], holdsTools: [{ task: 1, slots: 3 }] }, { choices: [{ slots: 1 }] }];
    expect(run({ slots: 9, tasks: held }, [work({ start: 0, end: 2 }), work({ task: 1, start: 5, end: 6 })]).ok).toBe(
      true,
    );
    expect(run({ slots: 9, tasks: held }, [work({ task: 1, start: 0, end: 1 }), work({ start: 1, end: 3 })]).ok).toBe(
      true,
    );
    const sessions = [{ units: 2, restSlots: 2, choices: [{ slots: 1 }] }];
    expect(
      run({ slots: 9, tasks: sessions }, [work({ start: 0, end: 1, finishes: false }), work({ start: 3, end: 4 })]).ok,
    ).toBe(true);
  });

  it('a session that leaves units and says it finishes: refused', () => {
    const tasks = [{ units: 2, choices: [{ slots: 1 }] }];
    expect(run({ slots: 4, tasks }, [work({ start: 0, end: 1 })])).toMatchObject({ ok: false, rule: 'refused' });
    expect(run({ slots: 4, tasks }, [work({ start: 0, end: 1, finishes: false })])).toMatchObject({ ok: true });
  });
});
