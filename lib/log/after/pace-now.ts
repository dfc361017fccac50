import type { Job } from '../../jobs/index.ts';
import type { Passage } from '../../passage/index.ts';
import type { Watchkeeper } from '../../person/index.ts';
import { stepWorkKind } from '../../planner/index.ts';
import type { NumberedEntry } from '../entry.ts';
import { workMeasures } from '../pace/measures.ts';
import { ownPaceLine, pacesOf, withOwnPaces } from '../pace/own-paces.ts';
import { paceNotes } from '../pace/pace-notes.ts';
import type { PlanWithFactors } from '../pace/planned-factors.ts';
import type { Noted } from './known.ts';

/** The watchkeeper with the pace the finished work of the log shows. */
export function paceNow(
  { jobs, orders, watchkeeper }: Passage,
  entries: readonly NumberedEntry[],
  plans: readonly PlanWithFactors[],
): Noted<Watchkeeper> {
  const measures = workMeasures(entries, jobs, { orders: orders.jobs, plans });
  const { paceRatio, paceByWork } = watchkeeper;
  const known = paceByWork === undefined ? {} : { known: paceByWork };
  const learned = pacesOf(measures, { usualRatio: paceRatio, ...known }).filter(({ logCount }) => logCount > 0);
  const text = `Own pace: ${learned.map(ownPaceLine).join('; ')}.`;
  return {
    value: withOwnPaces(watchkeeper, learned),
    notes: [
      ...(learned.length === 0 ? [] : [{ code: 'log.own-pace', entryNumbers: [], text }]),
      ...paceNotes(measures),
    ],
  };
}

/** Own pace at a step of a job: that of its kind of work, else the usual one. */
export const paceRatioOf =
  ({ paceRatio, paceByWork }: Watchkeeper): ((job: Job, stepId: string) => number) =>
  (job, stepId) => {
    const kind = stepWorkKind(job, stepId);
    return (kind === null ? undefined : paceByWork?.[kind]?.ratio) ?? paceRatio;
  };
