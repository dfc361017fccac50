import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { planCalendar } from '../../../lib/brief/export/index.ts';
import { fnv1a64 } from '../../../lib/brief/export/event-uid.ts';
import type { Plan } from '../../../lib/planner/index.ts';
import { drawnPlan } from './drawn-plans.ts';
import { names, ODD_NAMES, plan, planNamed } from './exports-fixture.ts';
import { type ReadComponent, readCalendar, textOf, valueOf } from './read-calendar.ts';

const settings = { nowEpochMs: Date.UTC(2026, 4, 27, 20, 15), names };
const eventsOf = (
  of: Plan,
  more: { before?: Plan; alarmsBeforeMin?: readonly number[] } = {},
): readonly ReadComponent[] => readCalendar(planCalendar(of, { ...settings, ...more })).components;
const about = (events: readonly ReadComponent[], kind: string): ReadComponent[] =>
  events.filter((event) => valueOf(event, 'UID')?.startsWith(`${kind}-`) === true);
const named = (events: readonly ReadComponent[], summary: string): ReadComponent => {
  const found = events.filter((event) => textOf(event, 'SUMMARY') === summary);
  expect(found).toHaveLength(1);
  const [only] = found;
  if (only === undefined) throw new Error(`no ${summary}`);
  return only;
};
const triggersOf = (event: ReadComponent): string[] =>
  event.components.map((alarm) => {
    const trigger = alarm.properties.find(({ name }) => name === 'TRIGGER');
    return [...(trigger?.parameters ?? []), trigger?.value].join(' ');
  });
const jobName = (id: string): string => plan.jobs.find(({ jobId }) => jobId === id)?.name ?? '';

/** What ical.js, a reader made by others, finds: every event with its texts and instants. */
const readByOthers = (text: string) =>
  ICAL.Component.fromString(text)
    .getAllSubcomponents('vevent')
    .map((component) => {
      const event = new ICAL.Event(component);
      return {
        uid: event.uid,
        summary: event.summary,
        description: event.description,
        startEpochMs: event.startDate.toJSDate().getTime(),
        endEpochMs: event.endDate.toJSDate().getTime(),
        alarmCount: component.getAllSubcomponents('valarm').length,
      };
    });

describe('planCalendar', () => {
  it('the fixture plan: one event for each session, sleep, wait, decision and fallback, and one for the plan', () => {
    const events = eventsOf(plan);
    const count = (kind: string): number => plan.entries.filter((entry) => entry.kind === kind).length;
    expect(about(events, 'work')).toHaveLength(count('work'));
    expect(about(events, 'sleep')).toHaveLength(count('sleep'));
    expect(about(events, 'wait')).toHaveLength(count('wait'));
    const open = plan.jobs.filter(({ status }) => status !== 'done');
    expect(about(events, 'decision')).toHaveLength(open.filter(({ decideByUtc }) => decideByUtc !== null).length);
    expect(about(events, 'fallback')).toHaveLength(open.filter(({ fallback }) => fallback !== null).length);
    expect(about(events, 'plan')).toHaveLength(1);
  });

  it('work: its span in UTC, place, fair starts, checks and cautions, alarms 30 and 5 min before', () => {
    const work = plan.entries.find(({ kind, jobId }) => kind === 'work' && jobId === 'oil');
    const event = named(about(eventsOf(plan), 'work'), jobName('oil'));
    const compact = (utc: string | undefined): string => `${utc?.replaceAll(/[-:Z]/g, '')}00Z`;
    expect(valueOf(event, 'DTSTART')).toBe(compact(work?.startUtc));
    expect(valueOf(event, 'DTEND')).toBe(compact(work?.endUtc));
    expect(valueOf(event, 'GEO')).toBe('-35.200000;179.400000');
    expect(valueOf(event, 'TRANSP')).toBe('OPAQUE');
    expect(triggersOf(event)).toEqual(['-PT30M', '-PT5M']);
    const lines = textOf(event, 'DESCRIPTION').split('\n');
    expect(lines).toContain('Steps: Brush, wash; oil.');
    expect(lines).toContain('Caution: Oil on the deck is slippery: wipe it up at once.');
    expect(lines.some((line) => line.startsWith('Fair starts: '))).toBe(true);
    for (const check of plan.jobs.find(({ jobId }) => jobId === 'oil')?.goCheck ?? [])
      expect(lines).toContain(`- ${check}`);
  });

  it('a decision: at the last fair start, with what is left if not, alarms before it; asked for, other alarms', () => {
    const job = plan.jobs.find(({ decideByUtc, fallbackPlan }) => decideByUtc !== null && fallbackPlan !== null);
    const event = named(eventsOf(plan, { alarmsBeforeMin: [60] }), `Decide: ${job?.name}`);
    expect(valueOf(event, 'DTSTART')).toBe(`${job?.decideByUtc?.replaceAll(/[-:Z]/g, '')}00Z`);
    expect(valueOf(event, 'DTEND')).toBeUndefined();
    expect(textOf(event, 'DESCRIPTION')).toContain(job?.fallbackPlan?.text);
    expect(triggersOf(event)).toEqual(['-PT60M']);
  });

  it('a fallback and a conditional job are tentative, sleep wakes at its end, the end of a wait is an instant with an alarm', () => {
    const events = eventsOf(plan);
    expect(about(events, 'fallback').map((event) => valueOf(event, 'STATUS'))).not.toContain('CONFIRMED');
    const conditional = plan.jobs.find(({ status, startUtc }) => status === 'conditional' && startUtc !== null);
    expect(valueOf(named(events, `${conditional?.name} (conditional)`), 'STATUS')).toBe('TENTATIVE');
    for (const sleep of about(events, 'sleep')) expect(triggersOf(sleep)).toEqual(['RELATED=END PT0S']);
    for (const sleep of about(events, 'sleep')) expect(textOf(sleep, 'DESCRIPTION')).toContain(plan.watch.notes[0]);
    for (const wait of about(events, 'wait')) expect(triggersOf(wait)).toEqual(['PT0S']);
  });

  it('the next plan of the passage: the same UIDs, a greater SEQUENCE, and what is gone is cancelled', () => {
    const uids = (events: readonly ReadComponent[]): string[] => events.map((one) => textOf(one, 'UID'));
    const later = {
      ...plan,
      madeAtUtc: '2026-05-28T08:00Z',
      entries: plan.entries.filter(({ jobId }) => jobId !== 'oil'),
    };
    const [before, after] = [eventsOf(plan), eventsOf(later, { before: plan })];
    expect(uids(after).toSorted()).toEqual(uids(before).toSorted());
    const gone = after.filter((event) => valueOf(event, 'STATUS') === 'CANCELLED');
    expect(gone.map((event) => textOf(event, 'SUMMARY'))).toEqual([jobName('oil'), `Wait is over: ${jobName('oil')}`]);
    expect(gone.flatMap(({ components }) => components)).toEqual([]);
    const sequence = (events: readonly ReadComponent[]): number =>
      Number(valueOf(events[0] ?? named([], ''), 'SEQUENCE'));
    expect(sequence(after)).toBeGreaterThan(sequence(before));
    expect(uids(eventsOf(planNamed('another passage'))).filter((uid) => uids(before).includes(uid))).toEqual([]);
  });

  it('a plan of nothing is still a calendar', () => {
    const nothing = { ...plan, entries: [], jobs: [], cautions: [] };
    const summaries = (of: Plan): string[] => eventsOf(of).map((event) => textOf(event, 'SUMMARY'));
    expect(summaries(nothing)).toEqual(['Plan 3 made: 0 of 0 jobs planned']);
    expect(summaries({ ...nothing, planNumber: null })).toEqual(['Plan made: 0 of 0 jobs planned']);
  });

  it('an alarm of half a minute or before a week is our mistake', () => {
    for (const beforeMin of [0.5, -1, 10_081])
      expect(() => eventsOf(plan, { alarmsBeforeMin: [beforeMin] })).toThrow('alarm');
  });

  it.each(ODD_NAMES)(
    'a name of odd characters: kept by the letter of the standard and as others read it: %j',
    (name) => {
      const text = planCalendar(planNamed(name), settings);
      const ours = readCalendar(text).components;
      const theirs = readByOthers(text);
      expect(theirs.map(({ uid }) => uid)).toEqual(ours.map((event) => textOf(event, 'UID')));
      expect(theirs.map(({ summary }) => summary)).toEqual(ours.map((event) => textOf(event, 'SUMMARY')));
      expect(theirs.map(({ description }) => description)).toEqual(ours.map((event) => textOf(event, 'DESCRIPTION')));
    },
  );

  it('any plan: every rule of RFC 5545 is kept, and ical.js reads the same events', () => {
    fc.assert(
      fc.property(drawnPlan, drawnPlan, (drawn, other) => {
        const text = planCalendar(drawn, { ...settings, before: { ...other, passageName: drawn.passageName } });
        const ours = readCalendar(text).components;
        const theirs = readByOthers(text);
        expect(theirs.map(({ summary }) => summary)).toEqual(ours.map((event) => textOf(event, 'SUMMARY')));
        expect(theirs.map(({ alarmCount }) => alarmCount)).toEqual(ours.map(({ components }) => components.length));
        const work = drawn.entries.filter(({ kind }) => kind === 'work');
        const spans = theirs.filter(({ uid }) => uid.startsWith('work-')).slice(0, work.length);
        expect(spans.map(({ startEpochMs, endEpochMs }) => [startEpochMs, endEpochMs]).toSorted(byPair)).toEqual(
          work.map(({ startUtc, endUtc }) => [Date.parse(startUtc), Date.parse(endUtc)]).toSorted(byPair),
        );
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});

const byPair = (a: readonly number[], b: readonly number[]): number =>
  (a[0] ?? 0) - (b[0] ?? 0) || (a[1] ?? 0) - (b[1] ?? 0);

describe('readCalendar, the strict reader of these tests', () => {
  const good = planCalendar(plan, settings);
  it.each([
    ['a bare line feed', (text: string) => text.replace('\r\n', '\n')],
    ['a line of more than 75 octets', (text: string) => text.replace('SUMMARY:', `SUMMARY:${'é'.repeat(40)}`)],
    ['a comma not escaped', (text: string) => text.replace('SUMMARY:', 'SUMMARY:a, b ')],
    ['no PRODID', (text: string) => text.replace(/PRODID.*\r\n/, '')],
    ['no UID', (text: string) => text.replace(/UID.*\r\n/, '')],
    ['an end before the start', (text: string) => text.replace(/DTEND:\d{4}/, 'DTEND:1999')],
    ['no END', (text: string) => text.replace('END:VEVENT\r\n', '')],
    ['an alarm without a trigger', (text: string) => text.replace(/TRIGGER.*\r\n/, '')],
    ['a control character', (text: string) => text.replace('SUMMARY:', 'SUMMARY:\u0007')],
  ])('%s: refused', (_, spoil) => {
    expect(spoil(good)).not.toBe(good);
    expect(() => readCalendar(spoil(good))).toThrow('RFC 5545');
  });
});

describe('fnv1a64', () => {
  it.each([
    // Internet-Draft draft-eastlake-fnv-22, test vectors of FNV-1a 64 (values from memory).
    ['', 'cbf29ce484222325'],
    ['a', 'af63dc4c8601ec8c'],
    ['foobar', '85944171f73967e8'],
  ])('%j', (text, hash) => {
    expect(fnv1a64(text)).toBe(hash);
  });
});
