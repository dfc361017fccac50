import { z } from 'zod';
import { ok, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';

/** What is shown of the latest plan of a passage, as its writer packed it. */
export interface StoredPlanView {
  readonly passageNumber: number;
  /** State of the passage and its log the plan was made of. */
  readonly version: number;
  readonly logNumber: number;
  /** The program that wrote it. */
  readonly madeBy: string;
  readonly octets: Uint8Array;
}

export interface PlanViewStore {
  /** Takes the place of the one kept for the passage before. */
  keep(view: StoredPlanView): Result<null>;
  get(passageNumber: number): Result<StoredPlanView | null>;
}

const viewSchema = z.object({
  passageNumber: z.number(),
  version: z.number(),
  logNumber: z.number(),
  madeBy: z.string(),
  octets: z.instanceof(Uint8Array),
});

export function planViewStore(connection: Connection): PlanViewStore {
  return {
    keep: (view) =>
      connection.write(() => {
        connection.run(
          'INSERT OR REPLACE INTO plan_view (passage_number, version, log_number, made_by, octets) ' +
            'VALUES (:passageNumber, :version, :logNumber, :madeBy, :octets)',
          { ...view },
        );
        return ok(null);
      }),
    get: (passageNumber) =>
      connection.read(() =>
        connection.first(
          viewSchema,
          'SELECT passage_number AS passageNumber, version, log_number AS logNumber, made_by AS madeBy, octets ' +
            'FROM plan_view WHERE passage_number = :passageNumber',
          { passageNumber },
        ),
      ),
  };
}
