import { describe, expect, it } from 'vitest';
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import {
  blocksOf,
  JOB_LIBRARY,
  jobFile,
  libraryEntry,
  libraryJob,
  libraryJobIds,
  makeJob,
  type Job,
  type Step,
} from '../../lib/jobs/index.ts';
import {
  checkFindings,
  clipFindings,
  itemFindings,
  limitFindings,
  nameFindings,
  provenanceFindings,
  toolFindings,
  turnBackFindings,
  visibilityFindings,
  waitFindings,
  wordFindings,
} from './library-rules.ts';

const stateIds = DEFAULT_SAIL_STATES.map(({ id }) => id);

function jobFrom(id: string): Job {
  const made = makeJob({ id, from: id }, 'jobs[0]');
  if (!made.ok) throw new Error(made.problems[0].what);
  return made.value;
}

/** The job of that id with the first step changed. */
function spoiled(id: string, step: Partial<Step>, job: Partial<Job> = {}): Job {
  const sound = jobFrom(id);
  return { ...sound, ...job, steps: sound.steps.map((one, index) => (index === 0 ? { ...one, ...step } : one)) };
}

/** Jobs that leave a sail, a spar or a lashing under load. */
const UNDER_LOAD =
  'preventer pole drop-main flake-lash hoist-main inspect-after-hoist main-unbend main-bend-on reef unreef jib-furl ' +
  'jib-drop jib-change trysail corner-web uv-strip stow-trim gooseneck-bolt halyard-freshen halyard-reeve sheet-swap ' +
  'liferaft-lash rig-tension shroud-check shroud-rope block-aloft quadrant pilot-ram emergency-steer drogue';

describe('job library', () => {
  it('its jobs: at least 50, each once, with those every ocean passage may need', () => {
    const wanted =
      'settle preventer stow-trim drop-main flake-lash hoist-main inspect-after-hoist main-unbend main-bend-on reef ' +
      'unreef pole jib-furl jib-drop jib-change spin-douse trysail squall-ready sail-dry stitch-tear stitch-below ' +
      'patch-tape patch-glue corner-web uv-strip batten-pocket batten-swap batten-make luff-box halyard-freshen ' +
      'halyard-reeve aloft block-aloft rig-tension shroud-check shroud-rope splice gooseneck-bolt track-clean ' +
      'fastener-oil fastener-soak sheet-swap liferaft-lash deck-walk prop-deck prop-swim pilot-ram rudder-bearing ' +
      'quadrant emergency-steer drogue fuel-filter oil-change engine-check bilge-pump hull-leak watermaker wind-solar ' +
      'stern-gear rebed comms-mend';
    expect(libraryJobIds).toEqual(expect.arrayContaining(wanted.split(' ')));
    expect(libraryJobIds.length).toBeGreaterThanOrEqual(50);
    expect(new Set(libraryJobIds).size).toBe(libraryJobIds.length);
  });

  describe.each(JOB_LIBRARY.map((job) => [job.id, job] as const))('%s', (id, job) => {
    it('its entry: of the shape of a user’s job, complete, and a user’s job made from it', () => {
      const read = jobFile.safeParse(libraryEntry(id));
      expect(read.success ? [] : read.error.issues).toEqual([]);
      expect(jobFile.safeParse({ id, from: id }).success).toBe(true);
      expect(blocksOf(jobFrom(id)).length).toBeGreaterThan(0);
      expect(new Set(job.steps.map((step) => step.id)).size).toBe(job.steps.length);
    });

    it('handlings: are the boat’s, and one exists in a sail state of the job', () => {
      const usable = DEFAULT_HANDLINGS.filter((handling) => job.handlings.includes(handling.id));
      expect(usable).toHaveLength(job.handlings.length);
      const states = job.sailStates.length === 0 ? stateIds : job.sailStates;
      expect(usable.some((handling) => handling.sailStates.some((state) => states.includes(state)))).toBe(true);
    });

    it('every handling of it: exists in a sail state of the job', () => {
      const states = job.sailStates.length === 0 ? stateIds : job.sailStates;
      const idle = DEFAULT_HANDLINGS.filter(
        (handling) =>
          job.handlings.includes(handling.id) && !handling.sailStates.some((state) => states.includes(state)),
      );
      expect(idle.map((handling) => handling.id)).toEqual([]);
    });

    it('sail states before and after: are the boat’s', () => {
      const after = job.steps.flatMap(({ sailStateAfter }) => (sailStateAfter === null ? [] : [sailStateAfter]));
      expect(stateIds).toEqual(expect.arrayContaining([...job.sailStates, ...after]));
    });

    it('every step: limits and minutes that rise, a clip point outside, our visibility, instructions', () => {
      expect(limitFindings(job)).toEqual([]);
      expect(clipFindings(job)).toEqual([]);
      expect(visibilityFindings(job)).toEqual([]);
      expect(wordFindings(job)).toEqual([]);
    });

    it('the way back, waits, words: a plan where it is hard to stop, waits by the air, no names', () => {
      expect(turnBackFindings(job)).toEqual([]);
      expect(waitFindings(job)).toEqual([]);
      expect(nameFindings(job)).toEqual([]);
    });

    it('every figure: has a provenance, and its sources are in the bibliography', () => {
      expect(provenanceFindings(job)).toEqual([]);
    });

    it('jobs it names: are in the library, and not itself', () => {
      const named = [...job.startEarly, ...job.goesWith];
      expect(named.filter((other) => other === id || libraryJob(other) === null)).toEqual([]);
      const background = job.startEarly.filter((other) =>
        jobFrom(other).steps.every(({ waitAfter }) => waitAfter === null),
      );
      expect(background, 'jobs to start early that leave nothing to run by itself').toEqual([]);
    });
  });

  it.each(UNDER_LOAD.split(' '))('%s leaves something under load: a look within 15 min and at 60', (id) => {
    expect(checkFindings(jobFrom(id))).toEqual([]);
  });

  it('materials and tools of all jobs: one name and one unit for each thing', () => {
    expect(itemFindings(JOB_LIBRARY)).toEqual([]);
    expect(toolFindings(JOB_LIBRARY)).toEqual([]);
  });

  it('what a job makes: another job takes it', () => {
    const taken = new Set(
      JOB_LIBRARY.flatMap((job) => job.steps.flatMap((step) => step.materials.map(({ item }) => item))),
    );
    expect(JOB_LIBRARY.flatMap((job) => job.makes).filter(({ item }) => !taken.has(item))).toEqual([]);
    expect(jobFrom('batten-make').makes).toEqual([{ item: 'batten', amount: 1, unit: 'pieces' }]);
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

  it('everything aloft: only by day, stopped for no less than the deck', () => {
    const aloft = JOB_LIBRARY.flatMap((job) => job.steps).filter(({ place }) => place === 'aloft');
    expect(aloft.length).toBeGreaterThan(5);
    expect(aloft.every((step) => step.limits.daylight === 'required' && step.stop !== 'anywhere')).toBe(true);
  });

  it('reef and shake it out: from full main to the deep reef and back', () => {
    const states = ['reef', 'unreef'].map((id) => [
      jobFrom(id).sailStates,
      blocksOf(jobFrom(id)).at(-1)?.sailStateAfter,
    ]);
    expect(states).toEqual([
      [['full-main'], 'deep-reef'],
      [['deep-reef'], 'full-main'],
    ]);
  });
});

describe('rules of the library', () => {
  it('a sound job spoiled in one thing: the rule for it says so', () => {
    expect(clipFindings(spoiled('main-unbend', { clipTo: null }))).toHaveLength(1);
    const limits = jobFrom('jib-drop').steps[0]?.limits;
    if (limits === undefined) throw new Error('no step');
    expect(visibilityFindings(spoiled('jib-drop', { limits: { ...limits, visibilityLeastNm: null } }))).toHaveLength(1);
    expect(limitFindings(spoiled('jib-drop', { limits: { ...limits, deckGustNoGoKn: 5 } }))).toHaveLength(1);
    expect(limitFindings(spoiled('jib-drop', { work: { leastMin: 0, likelyMin: 1, mostMin: 2 } }))).toHaveLength(1);
    expect(turnBackFindings(spoiled('jib-drop', {}, { turnBack: null }))).toHaveLength(1);
    expect(wordFindings(spoiled('jib-drop', { instructions: ['Pull.'] }, { cautions: [] }))).toHaveLength(2);
    expect(checkFindings(spoiled('reef', {}, { checksAfter: [{ afterMin: 20, look: 'All.' }] }))).toHaveLength(1);
    expect(nameFindings(spoiled('reef', {}, { turnBack: 'Ask the people of Harbour Town.' }))).toHaveLength(1);
  });

  it('figures of nobody, of an unknown source, of a step that is not there: found', () => {
    const bare = spoiled('jib-drop', {}, { provenance: { 'jib.work': 'NO_SUCH_SOURCE_1999 (all)' } });
    const found = provenanceFindings(bare);
    expect(found).toContain('jib-drop/lower: work is nobody’s');
    expect(found).toContain('jib-drop: source NO_SUCH_SOURCE_1999 of "jib.work" is not in the bibliography');
    expect(found).toContain('jib-drop: "jib.work" has a provenance and is not there');
  });

  it('a cure that knows no air, hours that fall: found', () => {
    const waitAfter = {
      kind: 'cure',
      leastH: 3,
      likelyH: 2,
      mostH: 1,
      atC: 20,
      halvesPerC: null,
      floorC: null,
    } as const;
    expect(waitFindings(spoiled('reef', { waitAfter: { ...waitAfter, keptAtC: 20 } }))).toHaveLength(3);
  });

  it('one thing with two units or two names: found', () => {
    const more = spoiled(
      'reef',
      { materials: [{ item: 'waxed twine', amount: 10, unit: 'ft' }] },
      { needsTools: ['palm', 'palms'] },
    );
    expect(itemFindings([...JOB_LIBRARY, more])).toHaveLength(1);
    expect(toolFindings([...JOB_LIBRARY, more])).toEqual(['palm', 'palms']);
  });
});
