import { describe, expect, it } from 'vitest';
import { damageJobs, makeJob, type Job } from '../../lib/jobs/index.ts';
import { assessDamage, type DamageCaseFile, type StitchProposal } from '../../lib/sail/index.ts';
import { patchAreaM2 } from '../../lib/stock/index.ts';

const SAIL: DamageCaseFile['sail'] = {
  kind: 'mainsail',
  cut: 'cross-cut',
  luffM: 18,
  footM: 6,
  panelCount: 16,
  cloth: 'woven-heavy',
  battens: { count: 5 },
  reefs: { count: 3 },
};

function proposalFor(damage: NonNullable<DamageCaseFile['damage']>[number]): StitchProposal {
  const report = assessDamage({ sail: SAIL, damage: [damage] }, 'sail');
  if (!report.ok) throw new Error(report.problems[0].what);
  const [tear] = report.value.tears;
  if (tear === undefined) throw new Error('one tear');
  return tear.stitch;
}

const choice = { id: 'leech', isBelow: false, after: ['drop'], priority: 9 };

const made = (proposal: StitchProposal, isBelow = false): readonly Job[] =>
  damageJobs(proposal, { ...choice, isBelow }).map((entry) => {
    const job = makeJob(entry, entry.id);
    if (!job.ok) throw new Error(job.problems[0].what);
    return job.value;
  });

describe('jobs of a tear found by counting panels', () => {
  // "6th panel up from the clew, 0.9 m, across the load", near the leech: two rows, as the rows table has it
  // (common practice, no source).
  const leech = proposalFor({
    counted: { from: 'clew', panel: 6 },
    distanceFromLeechM: 0.5,
    lengthM: 0.9,
    direction: 'across-the-load',
  });

  it('near the leech: sewn in two rows by its length and cloth, after the drop, then patched', () => {
    const [seam, patch] = made(leech);
    expect(seam).toMatchObject({ id: 'leech', from: 'stitch-tear', after: ['drop'], priorityWeight: 9 });
    expect(seam?.seam).toMatchObject({ lengthM: 0.9, rowCount: 2, cloth: 'woven-heavy' });
    // 2 rows of 0.9 m at 0.6 m an hour: three hours with the needle.
    expect(seam?.steps.find(({ id }) => id === 'sew')?.work.likelyMin).toBeCloseTo(180, 6);
    expect(patch).toMatchObject({ id: 'leech-patch', from: 'patch-tape', after: ['leech'] });
  });

  it('the patch: takes the cloth its overlap asks for, with a tenth for waste', () => {
    const [, patch] = made(leech);
    if (leech.patch === null) throw new Error('a patch is proposed');
    const need = patch?.steps.flatMap(({ materials }) => materials).find(({ unit }) => unit === 'm2');
    expect(need?.amount).toBeGreaterThanOrEqual(patchAreaM2(leech.patch) * 1.1);
    expect(need?.amount).toBeLessThan(patchAreaM2(leech.patch) * 1.1 + 0.01);
  });

  it('brought below: the library’s sewing below', () => {
    expect(made(leech, true)[0]).toMatchObject({ from: 'stitch-below' });
  });

  it('a seam that came open, away from leech and corner: no patch', () => {
    const seam = proposalFor({
      counted: { from: 'clew', panel: 7, seam: 'next' },
      chordShare: 0.5,
      lengthM: 0.6,
      direction: 'along-the-seam',
    });
    expect(made(seam).map(({ from }) => from)).toEqual(['stitch-tear']);
  });
});
