import { describe, expect, it } from 'vitest';
import type { PlannedJob, PlanPicture } from '../../lib/planner/index.ts';
import { strip } from '../../server/presenters/strip.ts';
import type { StripModel, ValueLane } from '../../server/presenters/strip-model.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { picture, plan } from '../pages/fixture-plan.ts';

const H_MS = 3_600_000;
const times = timeTexts(picture.shipTimeOffsetMin);
const jobOf = (jobId: string): PlannedJob | null => plan.jobs.find((job) => job.jobId === jobId) ?? null;
const stripOf = (jobId: string, shown: PlanPicture = picture): StripModel =>
  strip({ plan, picture: shown, job: jobOf(jobId), times });

function laneOf(model: StripModel, id: ValueLane['id']): ValueLane {
  const lane = model.values.find((candidate) => candidate.id === id);
  if (lane === undefined) throw new Error(`no lane ${id}`);
  return lane;
}

describe('time axis', () => {
  const { axis } = stripOf('drop');

  it('begins an hour before the hour of now, so that now and the first tick do not touch', () => {
    expect(axis.fromEpochMs).toBe(Date.UTC(2026, 4, 27, 19, 0));
    expect(axis.nowText).toBe('now 08:12');
  });

  it('reaches the last planned work and three days at least, never past the forecast', () => {
    expect(axis.toEpochMs - axis.nowEpochMs).toBeGreaterThanOrEqual(72 * H_MS);
    expect(axis.toEpochMs).toBeLessThanOrEqual(picture.slotEpochMs.at(-1) ?? 0);
  });

  it('ticks and midnights on the ship’s clock', () => {
    expect(axis.ticks.slice(0, 3).map((tick) => tick.text)).toEqual(['12', '18', '00']);
    expect(axis.midnights.map((epochMs) => new Date(epochMs).getUTCHours())).toEqual([12, 12, 12]);
  });

  it('ship’s clock half an hour off the hour: midnight is the ship’s', () => {
    const model = stripOf('drop', { ...picture, shipTimeOffsetMin: 570 });
    expect(new Date(model.axis.midnights[0] ?? 0).toISOString().slice(11, 16)).toBe('14:30');
  });
});

describe('lanes of values', () => {
  it('limits are those of the chosen job', () => {
    expect(laneOf(stripOf('drop'), 'wind').limits.map((limit) => limit.text)).toEqual([
      'gust 24',
      'no-go 18',
      'caution 14',
      'ideal 10',
    ]);
    expect(laneOf(stripOf('stitch'), 'sea').limits.map((limit) => limit.value)).toEqual([2.8, 2.2, 1.5]);
  });

  it('a job without a limit on wind: says so', () => {
    expect(laneOf(stripOf('make'), 'wind').note).toBe('no limit');
  });

  it('wind lane names the handling whose deck wind it shows', () => {
    expect(laneOf(stripOf('hoist'), 'wind').underName).toEqual(['close-reaching', 'under headsail']);
  });

  it('rain that nobody knows, job that must be dry: a lane, unknown from end to end', () => {
    const model = stripOf('patch');
    const rain = laneOf(model, 'rain');
    expect(rain.unknown).toHaveLength(1);
    expect(rain.unknown[0]?.fromEpochMs).toBe(picture.slotEpochMs[0]);
    expect(model.key.map((entry) => entry.kind)).toContain('unknown');
  });

  it('rain does not matter to the job, or it is dry throughout: no lane', () => {
    const dry = { ...picture, rainMmPerH: new Float32Array(picture.slotEpochMs.length) };
    expect(stripOf('drop').values.map((lane) => lane.id)).not.toContain('rain');
    expect(stripOf('patch', dry).values.map((lane) => lane.id)).not.toContain('rain');
  });

  it('one slot of gust 45 kn between drawn points: the drawn gust reaches 45 kn', () => {
    const jobs = picture.jobs.map((job) =>
      job.jobId === 'drop' ? { ...job, deckGustKn: job.deckGustKn.map((gustKn, i) => (i === 101 ? 45 : gustKn)) } : job,
    );
    const lane = laneOf(stripOf('drop', { ...picture, jobs }), 'wind');
    const gust = lane.curves.find((curve) => curve.kind === 'gust');
    expect(Math.max(...(gust?.values ?? []).map((value) => value ?? 0))).toBe(45);
    expect(lane.most).toBeGreaterThanOrEqual(45);
  });

  it('a gap in the sea: a gap in the curve and an unknown span of its length', () => {
    const gap = (values: Float32Array): Float32Array =>
      values.map((value, i) => (i >= 60 && i < 90 ? Number.NaN : value));
    const { p10, p50, p90 } = picture.seaHeightM;
    const lane = laneOf(
      stripOf('drop', { ...picture, seaHeightM: { p10: gap(p10), p50: gap(p50), p90: gap(p90) } }),
      'sea',
    );
    expect(lane.unknown).toHaveLength(1);
    const [span] = lane.unknown;
    expect(((span?.toEpochMs ?? 0) - (span?.fromEpochMs ?? 0)) / H_MS).toBeCloseTo(5, 0);
    expect(lane.curves[0]?.values).toContain(null);
  });

  it('alertness line: the gate of the chosen job, rounded to the careful side', () => {
    expect(laneOf(stripOf('drop'), 'alertness').limits[0]?.text).toBe('tired below 8.2');
    expect(laneOf(stripOf('stitch'), 'alertness').limits[0]?.text).toBe('tired below 7');
  });
});

describe('lanes of blocks', () => {
  const lanes = (jobId: string): StripModel['blocks'] => stripOf(jobId).blocks;

  it('windows: the spans of start times of the chosen job, and the planned start lies in one', () => {
    const start = Date.parse(jobOf('drop')?.startUtc ?? '');
    const windows = lanes('drop')[0]?.windows ?? [];
    expect(windows.some((span) => span.fromEpochMs <= start && start <= span.toEpochMs)).toBe(true);
    expect(lanes('block')[0]?.windows).toEqual([]);
  });

  it('job below: its windows stand in the lane below', () => {
    expect(lanes('make').map((lane) => lane.windows.length > 0)).toEqual([false, true, false]);
  });

  it('work on deck, below and sleep are told apart', () => {
    expect(lanes('drop').map((lane) => lane.blocks.length)).toEqual([7, 1, 8]);
  });

  it('conditional work and windows are marked as such', () => {
    const [deck] = lanes('patch');
    expect(deck?.blocks.filter((block) => block.kind === 'conditional').map((block) => block.text)).toEqual([
      'Patch the spray hood',
    ]);
    expect(deck?.windows.every((span) => span.conditional)).toBe(true);
  });

  it('work in two sessions: named once', () => {
    const [first] = plan.entries.filter((entry) => entry.jobId === 'stitch');
    if (first === undefined) throw new Error('no stitch in the fixture');
    const later = { ...first, startUtc: '2026-05-29T04:00Z', endUtc: '2026-05-29T05:00Z' };
    const [deck] = strip({
      plan: { ...plan, entries: [...plan.entries, later] },
      picture,
      job: jobOf('stitch'),
      times,
    }).blocks;
    expect(deck?.blocks.filter((block) => block.text === 'Stitch the leech, two rows')).toHaveLength(1);
  });
});

describe('the same in words', () => {
  it('description: windows of the chosen job and every planned start', () => {
    const { description } = stripOf('drop');
    expect(description).toContain('Start times for Drop the mainsail: Thu ');
    expect(description).toContain('Hoist to the deep reef Fri 14:40');
  });

  it('table: every three hours, unknown said, units in the head', () => {
    const { table } = stripOf('drop');
    expect(table.head.filter((head) => /, (kn|m|points)/.test(head))).toHaveLength(4);
    expect(table.rows.length).toBeGreaterThanOrEqual(24);
    const gone = picture.jobs.map((job) => ({ ...job, deckGustKn: job.deckGustKn.map(() => Number.NaN) }));
    expect(stripOf('drop', { ...picture, jobs: gone }).table.rows[0]?.[3]).toBe('unknown');
  });
});

describe('barbs', () => {
  it('southern hemisphere: feathers on the right of an observer with his back to the wind', () => {
    expect(stripOf('drop').barbs.every((barb) => barb.side === 'right')).toBe(true);
  });

  it('title: speed and the bearing it blows from, three figures', () => {
    expect(stripOf('drop').barbs[0]?.title).toMatch(/^Thu 09:00: true wind 26 kn from 22\d°$/);
  });
});
