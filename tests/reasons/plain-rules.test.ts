import { describe, expect, test } from 'vitest';
import { DEFAULT_GATES, gateFor } from '../../lib/person/index.ts';
import type { Finding } from '../../lib/reasons/index.ts';
import {
  broken,
  costFinding,
  findingText,
  finishByFinding,
  forbiddenFinding,
  handlingFinding,
  handlingStateFinding,
  horizonFinding,
  jointFinding,
  lockFinding,
  lockHandlingFinding,
  longestSleepFinding,
  materialFindings,
  notBeforeFinding,
  overlapFinding,
  pastFinding,
  personFindings,
  PLAIN_RULES,
  precedenceFinding,
  probabilityFinding,
  sailStateFinding,
  effortRestFinding,
  sessionRestFinding,
  settleFinding,
  toolFinding,
  twiceFinding,
  verdictOf,
} from '../../lib/reasons/index.ts';

// Every rule alone, on both sides of its boundary, with the amount. Figures are counted by hand.

const at = (hourH: number): number => Date.UTC(2026, 5, 1) + hourH * 3_600_000;
const span = (fromH: number, toH: number) => ({ startEpochMs: at(fromH), endEpochMs: at(toH) });
const work = { jobId: 'stitch', ...span(10, 12) };
const named = { jobId: 'stitch', startEpochMs: at(10) };
const wording = { shipTimeOffsetMin: 0, nameOf: (id: string) => (id === 'drop' ? 'Drop the main' : id) };

interface Row {
  readonly name: string;
  readonly met: Finding;
  readonly not: Finding;
  readonly margin: number;
  readonly text: string;
}

const rows: readonly Row[] = [
  {
    name: 'effort rest: a quarter of an hour of 55 min since heavy work',
    met: effortRestFinding(work, { endedEpochMs: at(9), restMin: 55, afterId: 'drop' }),
    not: effortRestFinding(work, { endedEpochMs: at(9.75), restMin: 55, afterId: 'drop' }),
    margin: -40,
    text: '15 min of rest since the heavy work of "Drop the main", 55 min needed',
  },
  {
    name: 'past: begins ten minutes before now',
    met: pastFinding(work, at(10)),
    not: pastFinding(work, at(10) + 600_000),
    margin: -10,
    text: 'it would begin 10 min before the plan does',
  },
  {
    name: 'horizon: ends half an hour after the plan',
    met: horizonFinding(work, at(12)),
    not: horizonFinding(work, at(11.5)),
    margin: -30,
    text: 'it would end 30 min after the plan ends (Mon 1 Jun 11:30)',
  },
  {
    name: 'not before: an hour and a half too early',
    met: notBeforeFinding(work, at(10)),
    not: notBeforeFinding(work, at(11.5)),
    margin: -90,
    text: 'it is not to begin before Mon 1 Jun 11:30, 1 h 30 min later',
  },
  {
    name: 'finish by: two hours late',
    met: finishByFinding(work, at(12)),
    not: finishByFinding(work, at(10)),
    margin: -120,
    text: 'it is to be done by Mon 1 Jun 10:00 and ends 2 h later',
  },
  {
    name: 'forbidden hours: half an hour of it inside, touching is outside',
    met: forbiddenFinding(work, span(12, 14)),
    not: forbiddenFinding(work, span(11.5, 14)),
    margin: -30,
    text: '30 min of it lie in forbidden hours, from Mon 1 Jun 11:30',
  },
  {
    name: 'overlap: sleeps an hour of it',
    met: overlapFinding(work, { ...span(6, 10), name: 'sleep' }),
    not: overlapFinding(work, { ...span(6, 11), name: 'sleep' }),
    margin: -60,
    text: '1 h of it lie in "sleep", from Mon 1 Jun 10:00',
  },
  {
    name: 'tool: held by another job for a quarter of an hour of it',
    met: toolFinding(work, { ...span(6, 10), tool: 'palm', byName: 'drop' }),
    not: toolFinding(work, { ...span(6, 10.25), tool: 'palm', byName: 'drop' }),
    margin: -15,
    text: 'palm is held by "Drop the main" for 15 min of it, from Mon 1 Jun 10:00',
  },
  {
    name: 'session rest: fifteen of twenty minutes',
    met: sessionRestFinding(work, { endedEpochMs: at(10) - 1_200_000, restMin: 20 }),
    not: sessionRestFinding(work, { endedEpochMs: at(9.75), restMin: 20 }),
    margin: -5,
    text: '15 min of rest since the last session, 20 min needed',
  },
  {
    name: 'settle: no time to heave to',
    met: settleFinding(work, { freeFromEpochMs: at(9.75), settleMin: 15, handlingId: 'heave-to' }),
    not: settleFinding(work, { freeFromEpochMs: at(10), settleMin: 15, handlingId: 'heave-to' }),
    margin: -15,
    text: '0 min to settle her under "heave-to", 15 min needed',
  },
  {
    name: 'longest sleep: ten minutes over',
    met: longestSleepFinding(span(0, 0.5), 30),
    not: longestSleepFinding(span(0, 2 / 3), 30),
    margin: -10,
    text: '40 min of sleep from Mon 1 Jun 00:00, 30 min at most in this traffic',
  },
  {
    name: 'lock: half an hour away, either way',
    met: lockFinding(work, at(10)),
    not: lockFinding(work, at(9.5)),
    margin: -30,
    text: 'its start is fixed at Mon 1 Jun 09:30, 30 min away',
  },
  {
    name: 'lock of the handling',
    met: lockHandlingFinding({ ...named, handlingId: 'run-off', lockedId: 'run-off' }),
    not: lockHandlingFinding({ ...named, handlingId: 'heave-to', lockedId: 'run-off' }),
    margin: -1,
    text: 'its handling is fixed: run-off',
  },
  {
    name: 'precedence: the job before is finished a quarter of an hour later',
    met: precedenceFinding({ ...named, beforeId: 'drop', finishedEpochMs: at(10), waitMin: 0 }),
    not: precedenceFinding({ ...named, beforeId: 'drop', finishedEpochMs: at(10.25), waitMin: 0 }),
    margin: -15,
    text: '"Drop the main" is finished only 15 min later',
  },
  {
    name: 'precedence: the job before is not in the plan',
    met: precedenceFinding({ ...named, beforeId: 'drop', finishedEpochMs: at(9), waitMin: 0 }),
    not: precedenceFinding({ ...named, beforeId: 'drop', finishedEpochMs: null, waitMin: 0 }),
    margin: -1,
    text: '"Drop the main" comes first and is not finished',
  },
  {
    name: 'wait: two hours of a four hours’ cure',
    met: precedenceFinding({ ...named, beforeId: 'drop', finishedEpochMs: at(6), waitMin: 240 }),
    not: precedenceFinding({ ...named, beforeId: 'drop', finishedEpochMs: at(8), waitMin: 240 }),
    margin: -120,
    text: '"Drop the main" has had 2 h of its 4 h, 2 h short',
  },
  {
    name: 'twice: nothing is left to do',
    met: twiceFinding({ ...named, leftMin: 20 }),
    not: twiceFinding({ ...named, leftMin: 0 }),
    margin: -1,
    text: 'all of it is done by then',
  },
  {
    name: 'sail state: needs the mainsail down',
    met: sailStateFinding({ ...named, sailStateId: 'headsail-only', allowedIds: ['headsail-only'] }),
    not: sailStateFinding({ ...named, sailStateId: 'full-main', allowedIds: ['headsail-only', 'bare-poles'] }),
    margin: -1,
    text: 'with full-main set it is not possible; it needs headsail-only, bare-poles',
  },
  {
    name: 'sail state of the handling',
    met: handlingStateFinding({ ...named, sailStateId: 'full-main', handling: { sailStates: ['full-main'] } }),
    not: handlingStateFinding({ ...named, sailStateId: 'bare-poles', handling: { sailStates: ['full-main'] } }),
    margin: -1,
    text: 'with bare-poles set it is not possible; it needs full-main',
  },
  {
    name: 'handling: not one of its own',
    met: handlingFinding({ ...named, handlingId: 'run-off', allowedIds: ['heave-to', 'run-off'] }),
    not: handlingFinding({ ...named, handlingId: 'run-off', allowedIds: ['heave-to'] }),
    margin: -1,
    text: '"run-off" is not a handling it may be worked under (heave-to)',
  },
  {
    name: 'wanted probability: nine points short',
    met: probabilityFinding({ jobId: 'stitch', probability: 0.8, wantedProbability: 0.8, atEpochMs: at(10) }),
    not: probabilityFinding({ jobId: 'stitch', probability: 0.71, wantedProbability: 0.8, atEpochMs: at(10) }),
    margin: -0.09,
    text: 'it stays inside its limits in 71 of 100, 80 of 100 are wanted',
  },
  {
    name: 'joint: what the change would cost all jobs together',
    met: jointFinding({ jobId: 'stitch', jointProbability: 0.88, insteadOfProbability: 0.88, atEpochMs: at(10) }),
    not: jointFinding({ jobId: 'stitch', jointProbability: 0.61, insteadOfProbability: 0.88, atEpochMs: at(10) }),
    margin: -0.27,
    text: 'all planned jobs together would hold in 61 of 100 instead of 88 of 100',
  },
  {
    name: 'cost',
    met: costFinding({ jobId: 'stitch', costPoints: 100, insteadOfPoints: 100, atEpochMs: at(10) }),
    not: costFinding({ jobId: 'stitch', costPoints: 130, insteadOfPoints: 100, atEpochMs: at(10) }),
    margin: -30,
    text: 'it would be fair too, but costs more exposure, distance or sleep',
  },
];

describe.each(rows)('$name', ({ met, not, margin, text }) => {
  test('on the boundary: met, and left out of what is broken', () => {
    expect(verdictOf(met)).toBe('met');
    expect(broken([met])).toEqual([]);
  });

  test('beyond it: broken by the amount, said with it', () => {
    expect(verdictOf(not)).toBe('broken');
    expect(not.margin).toBeCloseTo(margin, 9);
    expect(findingText(not, wording)).toBe(text);
  });
});

test('materials: each item short, with what is needed and what is to spare', () => {
  const [found, ...more] = materialFindings('stitch', [
    { item: 'waxed twine', unit: 'm', neededAmount: 40, availableAmount: 25.5, shortAmount: 14.5 },
  ]);
  expect(more).toEqual([]);
  if (found === undefined) throw new Error('no finding');
  expect(found.margin).toBeCloseTo(-14.5, 9);
  expect(findingText(found, wording)).toBe('waxed twine: 14.5 m short (40.0 m needed, 25.5 m to spare)');
});

test('every plain rule is in one of the rows, but those the weather makes', () => {
  const seen = new Set<string>(rows.flatMap(({ met, not }) => [met.rule, not.rule]));
  expect(
    PLAIN_RULES.filter((rule) => !seen.has(rule) && !['pace', 'cold-hands', 'look-out', 'materials'].includes(rule)),
  ).toEqual([]);
});

describe('gates of the person', () => {
  const state = {
    alertnessPoints: 12,
    todH: 10,
    awakeH: 3,
    lastSleepMin: 240,
    wokeTodH: 7,
    lapses: 3,
    slept24H: 6,
    slept48H: 13,
  };
  const gate = gateFor({ effort: 'heavy', place: 'aloft' }, DEFAULT_GATES);
  const texts = (change: Partial<typeof state>): string[] =>
    personFindings('rig', { state: { ...state, ...change }, gate, epochMs: at(10) }).map((finding) =>
      findingText(finding, wording),
    );

  test('a rested person: nothing stands against it', () => expect(texts({})).toEqual([]));

  // Gate lines: alertness 8.15, 16 h awake, 5 h in 24 and 12 h in 48, 02-06, 45 min doubled aloft (facts on the watchkeeper).
  test.each([
    [{ alertnessPoints: 7.9 }, 'alertness 7.9, 8.15 needed'],
    [{ todH: 3.5 }, 'it is 03:30 on your body clock, and hard work waits for 06:00'],
    [{ awakeH: 16.5, slept48H: 17 }, '16.5 h awake, 16.0 h at most'],
    [{ awakeH: 1 }, '1 h after waking, 1 h 30 min needed to shake off sleep'],
    [{ slept24H: 4 }, '4.0 h slept in 24, 5.0 h needed'],
    [{ slept48H: 11 }, '11.0 h slept in 48, 12.0 h needed'],
    [{ awakeH: 15, slept48H: 13 }, '15.0 h awake, more than the 13.0 h slept in 48'],
  ])('%o: %s', (change, text) => expect(texts(change)).toEqual([text]));
});
