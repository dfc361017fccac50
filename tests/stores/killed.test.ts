import { describe, expect, it } from 'vitest';
import { newGround, TRIAL_KINDS, type TrialKind, tryKill } from '../../scripts/kill-store/trials.ts';
import { longOrShort } from '../long-run.ts';
import { freshFolder } from './store-fixture.ts';

const ROUNDS_COUNT = longOrShort(12, 1);
const SEED = 20_261_126;

describe('a store whose process is killed', () => {
  it(`${ROUNDS_COUNT} times each while writing, opening, migrating, backing up and restoring: nothing acknowledged is lost, nothing is half there`, async () => {
    const ground = newGround(freshFolder());
    const kinds = Array.from({ length: ROUNDS_COUNT }, () => TRIAL_KINDS).flat();
    const killed: TrialKind[] = [];
    let [acknowledgedCount, cutCount] = [0, 0];
    for (const [index, kind] of kinds.entries()) {
      // oxlint-disable-next-line no-await-in-loop -- one store, kill after kill
      const trial = await tryKill(ground, { kind, seed: SEED + index, cutCount: 6 });
      expect(trial.faults, `${kind} ${index}`).toEqual([]);
      if (trial.isKilled) killed.push(kind);
      acknowledgedCount += trial.acknowledgedCount;
      cutCount += trial.cutCount;
    }
    // What was killed too late proves nothing.
    expect(killed).toContain('writing');
    expect(killed).toContain('backing up');
    expect(acknowledgedCount).toBeGreaterThan(2);
    expect(cutCount).toBeGreaterThanOrEqual(6);
  }, 600_000);
});
