import { describe, expect, it } from 'vitest';
import { plannedAlertness } from '../../server/presenters/planned-alertness.ts';
import { type StartCard, startCard } from '../../server/presenters/start-card.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { chosenWindows } from '../../server/presenters/windows-choice.ts';
import { type JobPage, windowsPage } from '../../server/presenters/windows-page.ts';
import type { StartLook } from '../../lib/planner/index.ts';
import { picture, plan } from '../pages/fixture-plan.ts';
import { lookAnswer, view, windowsAnswer } from '../pages/fixture-windows.ts';

const times = timeTexts(picture.shipTimeOffsetMin);

function pageOf(jobId: string, handlingId?: string, startUtc?: string): JobPage {
  const chosen = chosenWindows(view, { job: jobId, part: null, handling: handlingId ?? null });
  if (!chosen.ok || chosen.value.handlingId === null) throw new Error('nothing chosen');
  const block = { jobId, blockIndex: 0, handlingId: chosen.value.handlingId };
  const look = startUtc === undefined ? null : lookAnswer({ ...block, startEpochMs: Date.parse(startUtc) }).look;
  const page = windowsPage({
    view,
    nowEpochMs: picture.nowEpochMs,
    chosen: chosen.value,
    answer: windowsAnswer(block),
    look,
  });
  if (page.kind !== 'windows') throw new Error(`the page is ${page.kind}`);
  return page;
}

function cardOf(jobId: string, startUtc: string, change: Partial<StartLook> = {}): StartCard {
  const block = { jobId, blockIndex: 0, handlingId: 'run-off' };
  const { look } = lookAnswer({ ...block, startEpochMs: Date.parse(startUtc) });
  return startCard({
    view,
    chosen: { jobId, partIndex: 0, handlingId: 'run-off' },
    look: { ...look, ...change },
    jobName: jobId,
    wantedProbability: 0.65,
    leastAlertnessPoints: 8.15,
    slotMin: 10,
    times,
  });
}

describe('windows page', () => {
  it('a window: its span, its chance, what binds with room in unit and σ, and a link to its best start', () => {
    const [first] = pageOf('drop').sentences;
    expect(first?.text).toMatch(
      /^Start between Thu 08:20 and 16:00\. The best start stays inside its limits in 88 of 100; wind over the deck binds, 4\.1 kn, 2\.2 σ to spare\.$/,
    );
    expect(first?.link?.href).toBe('/windows?job=drop&part=1&handling=run-off&start=2026-05-27T20:20Z');
  });

  it('no window: the nearest start, what the plan says of it, and a link to see why', () => {
    const texts = pageOf('block').sentences;
    expect(texts[0]?.text).toMatch(/^No start stays inside the limits in 65 of 100\. Handling: /);
    expect(texts.some(({ link }) => link?.text === 'See what stands against it')).toBe(true);
    expect(texts.some(({ text }) => text.startsWith('What would help: '))).toBe(true);
  });

  it('conditional windows: said in the sentence, the row and the lane', () => {
    const page = pageOf('patch');
    expect(page.sentences[0]?.text).toContain('Conditional: rain unknown.');
    expect(page.rows.every(({ note }) => note === 'conditional: rain unknown')).toBe(true);
    const kinds = page.hours?.strip.blocks[0]?.blocks.map(({ kind }) => kind) ?? [];
    expect(new Set(kinds)).toEqual(new Set(['start-conditional']));
  });

  it('rows: span, best start, chance, room, and the standard criterion with its α', () => {
    expect(pageOf('drop').rows[0]).toMatchObject({
      between: 'Thu 08:20 to 16:00',
      of100: '88',
      room: '4.1 kn, 2.2 σ',
      binds: 'wind over the deck',
      standard: 'not met: wind over the deck above 71 % of its limit',
      isShown: true,
      surest: '',
    });
  });

  it('lanes: chance first, gust with a fan, and what nobody knows though it binds', () => {
    const values = pageOf('bolt').hours?.strip.values ?? [];
    expect(values.map(({ id }) => id)).toEqual([
      'chance',
      'wind',
      'sea',
      'steepness',
      'sea-water',
      'visibility',
      'alertness',
    ]);
    expect(values[1]?.bands.map(({ kind }) => kind)).toContain('gust');
    expect(values[5]?.unknown.length).toBe(1);
    const plain = pageOf('drop').hours?.strip.values.map(({ id }) => id);
    expect(plain).toEqual(['chance', 'wind', 'sea', 'alertness']);
  });

  it('hours to read: each with every value, unknown said, what binds a start there with its room', () => {
    const reading = pageOf('patch').hours?.strip.reading;
    expect(reading?.rows.length).toBeGreaterThan(30);
    const told = reading?.terms.map((term, i) => `${term}: ${reading.rows[5]?.values[i]}`).join('\n');
    expect(told).toMatch(
      /Light: .*True wind: \d+ \(.*\) kn from \d{3}°.*Deck wind: .* kn.*Gust: .* \(.* to .*\) kn.*Sea: .* m.*Rain: unknown.*A start then holds: \d+ of 100.*Tightest for it: wind over the deck, .*; rain unknown/s,
    );
    expect(reading?.rows[5]?.href).toBe(`?job=patch&part=1&handling=hold-course&start=${reading?.rows[5]?.utc}`);
  });

  it('no window, and the plan speaks of another start: what is tightest for the nearest one, with its amounts', () => {
    const other = { ...view, plan: { ...plan, jobs: plan.jobs.map((job) => ({ ...job, nearestMiss: null })) } };
    const block = { jobId: 'block', blockIndex: 0, handlingId: 'run-off' };
    const chosen = chosenWindows(other, { job: 'block', part: null, handling: null });
    if (!chosen.ok) throw new Error('nothing chosen');
    const page = windowsPage({
      view: other,
      nowEpochMs: picture.nowEpochMs,
      chosen: { ...chosen.value, handlingId: 'run-off' },
      answer: windowsAnswer(block),
      look: null,
    });
    expect(page.kind === 'windows' && page.sentences[1]?.text).toMatch(
      /^The nearest start is \w{3} \d\d:\d\d: 3\d of 100; wind over the deck over by 2\.2 kn, −1\.1 σ \(20\.2 of 18 kn at \w{3} \d\d:\d\d\)\.$/,
    );
  });

  it('a start looked at is the hour that is read', () => {
    const reading = pageOf('drop', 'run-off', '2026-05-28T02:00Z').hours?.strip.reading;
    expect(reading?.rows[reading.shownIndex]?.values.slice(0, 2)).toEqual(['Thu 28 May 14:00', 'Thu 02:00 UTC']);
  });

  it('a start looked at: marked on the axis, from start to the end of what must hold', () => {
    const pick = pageOf('drop', 'run-off', '2026-05-28T01:00Z').hours?.strip.pick;
    expect([pick?.toEpochMs, pick?.holdEpochMs].map((epochMs) => (epochMs ?? 0) - (pick?.fromEpochMs ?? 0))).toEqual([
      50 * 60_000,
      80 * 60_000,
    ]);
  });

  it('part under no handling: says what to do, and draws nothing', () => {
    const page = windowsPage({
      view,
      nowEpochMs: picture.nowEpochMs,
      chosen: { jobId: 'drop', partIndex: 0, handlingId: null },
      answer: null,
      look: null,
    });
    expect(page.kind === 'windows' && page.hours === null && page.sentences[0]?.text).toMatch(
      /^No handling of this job/,
    );
  });
});

describe('a start', () => {
  it('limits: room in unit and σ, when tightest, how many break it and from when', () => {
    expect(cardOf('drop', '2026-05-28T01:00Z').limits[0]).toEqual({
      limit: 'gust over the deck',
      room: 'over by 1.2 kn, −0.7 σ',
      measured: '25.2 of 24 kn at Thu 13:00',
      broken: '35 of 100, first at Thu 13:40',
      isBroken: true,
    });
  });

  it('good enough: said without a but', () => {
    expect(cardOf('drop', '2026-05-28T01:00Z', { probability: 0.88 }).verdict).toBe(
      'Stays inside its limits in 88 of 100 ± 7; you want 65.',
    );
  });

  it.each([
    ['too-slow', /more than threefold/],
    ['past-forecast', /past the end of the forecast/],
  ] as const)('refused, %s: says why, shows no figures', (refused, text) => {
    const none = { plannedMin: null, referenceMin: null, probability: null, limits: [], refused };
    const card = cardOf('drop', '2026-05-28T01:00Z', none);
    expect(card.verdict).toMatch(text);
    expect(card.limits).toEqual([]);
    expect(card.facts.map(({ term }) => term)).not.toContain('Takes');
  });

  it('sleep and other work of the plan at those hours, and a job that must come first: each said', () => {
    // The plan sleeps 22:00 to 00:30 on the ship’s clock, and drops the mainsail 13:00 to 13:50.
    expect(cardOf('stitch', '2026-05-28T10:30Z').clashes).toEqual(['The plan has sleep from Thu 22:00 to Fri 00:30.']);
    expect(cardOf('stitch', '2026-05-28T01:00Z').clashes).toEqual([
      '“Drop the mainsail” must be done first; the plan ends it at Thu 13:50.',
      'The plan has “Drop the mainsail” from Thu 13:00 to 13:50.',
    ]);
  });

  it('its own place in the plan is no clash', () => {
    expect(cardOf('drop', '2026-05-28T01:00Z').clashes).toEqual([]);
  });

  it('alertness by the plan against the line of the job; below it: sleep first', () => {
    const person = (startUtc: string): string =>
      JSON.stringify(cardOf('drop', startUtc).facts.find(({ term }) => term === 'You, by the plan'));
    expect(person('2026-05-27T20:20Z')).toContain('too tired for it: sleep first');
    expect(person('2026-05-28T01:00Z')).toMatch(
      /"9\.\d points".*at least 8\.2 points needed|"9\.\d points".*at least 8\.2 needed/,
    );
  });

  it('alertness long after the last thing planned: unknown, not tired', () => {
    const shown = plannedAlertness({ ...view, plan: { ...plan, entries: plan.entries.slice(0, 1) } });
    expect(shown[0]).toBe(picture.alertnessPoints[0]);
    expect(shown.at(-1)).toBeNaN();
  });
});
