import { describe, expect, it } from 'vitest';
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import { blocksOf, JOB_LIBRARY, jobFile, libraryJobIds, makeJob, type Job } from '../../lib/jobs/index.ts';

const stateIds = DEFAULT_SAIL_STATES.map(({ id }) => id);

function jobFrom(id: string): Job {
  const made = makeJob({ id, from: id }, 'jobs[0]');
  if (!made.ok) throw new Error(made.problems[0].what);
  return made.value;
}

describe('job library', () => {
  it('its jobs: those of a passage with a torn mainsail', () => {
    const wanted =
      'settle drop-main flake-lash stitch-tear stitch-below patch-tape batten-swap batten-make luff-box ' +
      'halyard-freshen halyard-reeve hoist-main inspect-after-hoist fastener-oil fastener-soak gooseneck-bolt ' +
      'rebed pilot-ram deck-walk fuel-filter aloft';
    expect(libraryJobIds).toEqual(expect.arrayContaining(wanted.split(' ')));
    expect(new Set(libraryJobIds).size).toBe(libraryJobIds.length);
  });

  describe.each(JOB_LIBRARY.map((job) => [job.id, job] as const))('%s', (id, job) => {
    it('handlings: are the boat’s, and one exists in a sail state of the job', () => {
      const usable = DEFAULT_HANDLINGS.filter((handling) => job.handlings.includes(handling.id));
      expect(usable).toHaveLength(job.handlings.length);
      const states = job.sailStates.length === 0 ? stateIds : job.sailStates;
      expect(usable.some((handling) => handling.sailStates.some((state) => states.includes(state)))).toBe(true);
    });

    it('sail states before and after: are the boat’s', () => {
      const after = job.steps.flatMap(({ sailStateAfter }) => (sailStateAfter === null ? [] : [sailStateAfter]));
      expect(stateIds).toEqual(expect.arrayContaining([...job.sailStates, ...after]));
    });

    it('every step: has its own id, wind and sea limits that rise, and minutes that rise', () => {
      expect(new Set(job.steps.map((step) => step.id)).size).toBe(job.steps.length);
      for (const { limits, work } of job.steps) {
        for (const levels of [limits.deckWindKn, limits.seaHeightM]) {
          if (levels === null) throw new Error('a library step has wind and sea limits');
          expect([levels.ideal, levels.caution, levels.noGo]).toEqual(
            [levels.ideal, levels.caution, levels.noGo].toSorted((a, b) => a - b),
          );
        }
        expect([work.leastMin, work.likelyMin, work.mostMin]).toEqual(
          [work.leastMin, work.likelyMin, work.mostMin].toSorted((a, b) => a - b),
        );
        expect(work.leastMin).toBeGreaterThan(0);
      }
    });

    it('in a passage: is a job in blocks, with a provenance', () => {
      expect(blocksOf(jobFrom(id)).length).toBeGreaterThan(0);
      expect(jobFrom(id).provenance).toBe('common practice, no source');
      expect(jobFile.safeParse({ id, from: id }).success).toBe(true);
    });
  });

  it('dropping the mainsail: one core to the second tie, then flaking and lashing', () => {
    const blocks = blocksOf(jobFrom('drop-main'));
    expect(blocks.map((block) => block.steps.map((step) => step.id))).toEqual([
      ['settle', 'prepare', 'lower', 'tame'],
      ['flake', 'lash'],
    ]);
    expect(blocks.map(({ session }) => session !== null)).toEqual([false, true]);
    expect(blocks[0]?.sailStateAfter).toBe('headsail-only');
  });

  it('a seized fastener: fourteen hours of soak between oil and turning', () => {
    expect(blocksOf(jobFrom('fastener-soak')).map(({ waitAfterH }) => waitAfterH)).toEqual([14, 0]);
  });

  it('everything aloft: one block, only by day', () => {
    const blocks = blocksOf(jobFrom('aloft'));
    expect(blocks.at(-1)?.steps.map((step) => step.place)).toEqual(['aloft', 'aloft', 'aloft']);
    expect(blocks.at(-1)?.steps.every((step) => step.limits.daylight === 'required')).toBe(true);
  });
});
