import type { StitchProposal } from '../sail/index.ts';
import { patchAreaM2 } from '../stock/index.ts';
import type { MaterialNeed } from './job.ts';
import type { JobFile, StepFile } from './job-file.ts';

/** Share of cloth lost in cutting; common practice, no source. */
const WASTE_RATIO = 1.1;

/** Where the sewing is done, and what must be over before it. */
export interface DamageJobsChoice {
  /** Id of the sewing; the patch has it with `-patch`. */
  readonly id: string;
  /** The damaged part is brought below. */
  readonly isBelow: boolean;
  readonly after: readonly string[];
  readonly priority: number;
}

/**
 * The jobs a tear asks for, as entries of a passage file: the seam by its length, rows and cloth, and the patch over it
 * with its cloth; a start to edit.
 */
export function damageJobs(proposal: StitchProposal, choice: DamageJobsChoice): readonly JobFile[] {
  const { lengthM, rowCount, patch } = proposal;
  const { id, after, priority } = choice;
  const rowsText = rowCount === 1 ? 'one row' : `${rowCount} rows`;
  const seam: JobFile = {
    id,
    from: choice.isBelow ? 'stitch-below' : 'stitch-tear',
    name: `Sew the tear, ${lengthM} m in ${rowsText}`,
    priority,
    after: [...after],
    lengthM,
    rows: rowCount,
    ...(proposal.cloth === null ? {} : { cloth: proposal.cloth }),
  };
  if (patch === null) return [seam];
  const cloth = { amount: Math.ceil(patchAreaM2(patch) * WASTE_RATIO * 100) / 100, unit: 'm2' };
  const name = `Patch over the tear, ${Math.round(patch.overlapM * 1000)} mm all round, both sides`;
  return [seam, { id: `${id}-patch`, from: 'patch-tape', name, priority, after: [id], steps: patchSteps(cloth) }];
}

/** Steps of the library's patch, with the cloth this one takes. */
const patchSteps = (cloth: Pick<MaterialNeed, 'amount' | 'unit'>): StepFile[] => [
  { id: 'align' },
  { id: 'cut' },
  { id: 'stick', materials: [{ item: 'sticky-back cloth', ...cloth }] },
];
