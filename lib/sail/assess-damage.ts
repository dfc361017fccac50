/** From a damage file to everything that can be said about it. */
import { failed, ok, type Problem, type Result } from '../result/index.ts';
import { placeOf } from '../shape/index.ts';
import { battenLimits } from './batten-limits.ts';
import type { BattenLimit, TearFinding } from './finding.ts';
import { placeTear, type Tear } from './place-tear.ts';
import { reefLooseM, tearHeights } from './reef-findings.ts';
import type { DamageCaseFile } from './sail-file.ts';
import { sailShape, type SailShape } from './sail-shape.ts';
import { stitchProposal, type StitchProposal } from './stitch-proposal.ts';
import { tearFindings } from './tear-findings.ts';

export interface TearReport {
  /** `A`, `B` … where there are several; else empty. */
  readonly mark: string;
  readonly tear: Tear;
  readonly findings: readonly TearFinding[];
  readonly stitch: StitchProposal;
}

export interface DamageReport {
  readonly shape: SailShape;
  readonly tears: readonly TearReport[];
  readonly battens: readonly BattenLimit[];
}

/**
 * Places every tear of a checked file on the sail and says what can be said of it.
 *
 * @param where the file's name, for problems
 * @returns the report, or every problem of a place: `damage.panel`, `.seam`, `.battens`, `.contradiction`, `.off-sail`,
 *   `.longer-than-sail`
 */
export function assessDamage(file: DamageCaseFile, where: string): Result<DamageReport> {
  const shape = sailShape(file.sail);
  const problems: Problem[] = [];
  const tears: TearReport[] = [];
  for (const [index, damage] of (file.damage ?? []).entries()) {
    const path = ['damage', index];
    const placed = placeTear(shape, damage, { where, path });
    const seen = placed.ok ? notBelow(shape, placed.value, placeOf({ where, path: [...path, 'belowReef'] })) : null;
    if (!placed.ok) problems.push(...placed.problems);
    else if (seen !== null) problems.push(seen);
    else {
      const findings = tearFindings(shape, placed.value);
      tears.push({
        mark: markOf(index, file.damage ?? []),
        tear: placed.value,
        findings,
        stitch: stitchProposal(shape, placed.value, findings),
      });
    }
  }
  const [first, ...rest] = problems;
  return first === undefined ? ok({ shape, tears, battens: battenLimits(shape) }) : failed(first, ...rest);
}

const markOf = (index: number, damages: readonly unknown[]): string =>
  damages.length > 1 ? String.fromCharCode('A'.charCodeAt(0) + index) : '';

/** Said to lie below a reef, and by its panel surely above it: a contradiction. */
function notBelow(shape: SailShape, tear: Tear, where: string): Problem | null {
  const reef = shape.reefs[(tear.said.belowReef ?? 0) - 1];
  if (reef === undefined) return null;
  const { lowM, downM } = tearHeights(shape, tear);
  if (lowM - downM <= reef.heightM + reefLooseM(shape)) return null;
  const first = shape.reefs.find((one) => one.heightM > lowM);
  return {
    code: 'damage.contradiction',
    where,
    what: `By its panel or battens the tear lies above reef ${reef.count.itsNumber}, by at least ${Number((lowM - downM - reef.heightM).toFixed(1))} m.`,
    expected: first === undefined ? 'no reef: it lies above all of them' : `reef ${first.count.itsNumber} or higher`,
    remedy: 'Count both again: reef 1 is the lowest.',
  };
}
