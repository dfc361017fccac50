import { describe, expect, test } from 'vitest';
import { JOB_LIBRARY, libraryJob } from '../../lib/jobs/index.ts';
import { WORK_KINDS, WORK_KIND_NAMES, workKindOf, workPaceText } from '../../lib/person/index.ts';
import { stepWorkKind } from '../../lib/planner/index.ts';

const jobOf = (id: string) => {
  const job = libraryJob(id);
  if (job === null || job === undefined) throw new Error(`no library job ${id}`);
  return job;
};

describe('kind of work of a step', () => {
  // Common practice, no source: what the hands do in each of these is told by its text in the job library.
  test.each([
    ['drop-main', 'lower', 'hauling'],
    ['hoist-main', 'hoist', 'hauling'],
    ['jib-change', 'bend-on', 'fitting'],
    ['stitch-tear', 'sew', 'sewing'],
    ['stitch-below', 'sew', 'sewing'],
    ['patch-tape', 'stick', 'sewing'],
    ['uv-strip', 'sew', 'sewing'],
    ['gooseneck-bolt', 'turn', 'fitting'],
    ['rebed', 'bed', 'fitting'],
    ['shroud-rope', 'hang', 'aloft'],
    ['aloft', 'climb', 'aloft'],
    ['prop-swim', 'dive', 'aloft'],
    ['fuel-filter', 'bleed', 'below'],
    ['luff-box', 'rebuild', 'below'],
    ['pilot-ram', 'mend', 'below'],
  ])('%s, %s: %s', (jobId, stepId, kind) => expect(stepWorkKind(jobOf(jobId), stepId)).toBe(kind));

  test('every kind has steps in the library, and no kind has more than half of them', () => {
    const kinds = JOB_LIBRARY.flatMap(({ id }) => jobOf(id).steps.map((step) => stepWorkKind(jobOf(id), step.id)));
    expect(kinds).not.toContain(null);
    for (const kind of WORK_KINDS) {
      const count = kinds.filter((of) => of === kind).length;
      expect(count).toBeGreaterThan(2);
      expect(count).toBeLessThan(kinds.length / 2);
    }
  });

  test('a seam aloft is work aloft, a step nobody knows has none', () => {
    expect(workKindOf({ place: 'aloft', hands: 'fine' }, { group: 'sail-repair', isSeam: true })).toBe('aloft');
    expect(stepWorkKind(jobOf('reef'), 'knit')).toBeNull();
  });

  test('is told with factor and number of pieces, the second decimal where it tells something', () => {
    expect(workPaceText('sewing', { ratio: 1.4, sessionCount: 5 })).toBe('your factor 1.4 (n = 5), sewing');
    expect(workPaceText('below', { ratio: 0.954, sessionCount: 2 })).toBe(
      `your factor 0.95 (n = 2), ${WORK_KIND_NAMES.below}`,
    );
  });
});
