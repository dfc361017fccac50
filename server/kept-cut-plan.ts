import type { Passage } from '../lib/passage/index.ts';
import { barsOf, type CutPlan, cutPlan, type CutRequest, cutRequestOf, type CuttingFile } from '../lib/stock/index.ts';

/** What a passage wants cut from the bars of its locker, and the plan for it. */
export interface PassageCut {
  readonly cutting: CuttingFile;
  readonly request: CutRequest;
  readonly plan: CutPlan;
}

/** Plans the cutting of a passage; a plan is kept until something else is asked, for it may take seconds. null: nothing is wanted. */
export function keptCutPlan(): (passage: Pick<Passage, 'cutting' | 'locker'>) => PassageCut | null {
  let kept: { readonly asked: string; readonly cut: PassageCut } | null = null;
  return ({ cutting, locker }) => {
    if (cutting === null) return null;
    const request = cutRequestOf(cutting, barsOf(locker));
    const asked = JSON.stringify([cutting, request]);
    if (kept?.asked !== asked) kept = { asked, cut: { cutting, request, plan: cutPlan(request) } };
    return kept.cut;
  };
}
