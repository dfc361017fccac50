import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';
import { nextNumber } from './log.ts';
import { noSuchPassage } from './store-problems.ts';

/** A plan as it was made, numbered within its passage. Plans are never changed; a new one is added. */
export interface StoredPlan {
  readonly passageNumber: number;
  readonly number: number;
  readonly seed: number;
  readonly madeAtUtc: string;
  readonly json: string;
  /** What it was made of and what it comes to, as its writer has it; null: not known. */
  readonly madeOfJson: string | null;
  readonly writtenAtEpochMs: number;
}

/** `json` may be told the number, which the plan bears in itself. */
export type NewPlan = Omit<StoredPlan, 'number' | 'json' | 'madeOfJson'> & {
  readonly json: string | ((number: number) => string);
  readonly madeOfJson?: string;
};

export type PlanSummary = Omit<StoredPlan, 'json'>;

export interface PlanStore {
  append(plan: NewPlan): Result<StoredPlan>;
  get(passageNumber: number, number: number): Result<StoredPlan | null>;
  latest(passageNumber: number): Result<StoredPlan | null>;
  /** In the order they were made. */
  list(passageNumber: number): Result<readonly PlanSummary[]>;
}

const summaryColumns =
  'passage_number AS passageNumber, number, seed, made_at_utc AS madeAtUtc, made_of_json AS madeOfJson, ' +
  'written_at_epoch_ms AS writtenAtEpochMs';
const summarySchema = z.object({
  passageNumber: z.number(),
  number: z.number(),
  seed: z.number(),
  madeAtUtc: z.string(),
  madeOfJson: z.string().nullable(),
  writtenAtEpochMs: z.number(),
});
const planSchema = summarySchema.extend({ json: z.string() });

export function planStore(connection: Connection): PlanStore {
  const select = `SELECT ${summaryColumns}, json FROM plan WHERE passage_number = :passageNumber`;
  return {
    append: (plan) =>
      connection.write(() => {
        const number = nextNumber(connection, 'plan', plan.passageNumber);
        if (number === null) return failed(noSuchPassage(plan.passageNumber));
        const json = typeof plan.json === 'string' ? plan.json : plan.json(number);
        const row = { ...plan, json, number, madeOfJson: plan.madeOfJson ?? null };
        connection.run(
          'INSERT INTO plan (passage_number, number, seed, made_at_utc, json, made_of_json, written_at_epoch_ms) ' +
            'VALUES (:passageNumber, :number, :seed, :madeAtUtc, :json, :madeOfJson, :writtenAtEpochMs)',
          row,
        );
        return ok(row);
      }),

    get: (passageNumber, number) =>
      connection.read(() => connection.first(planSchema, `${select} AND number = :number`, { passageNumber, number })),
    latest: (passageNumber) =>
      connection.read(() => connection.first(planSchema, `${select} ORDER BY number DESC LIMIT 1`, { passageNumber })),
    list: (passageNumber) =>
      connection.read(() =>
        connection.all(
          summarySchema,
          `SELECT ${summaryColumns} FROM plan WHERE passage_number = :passageNumber ORDER BY number`,
          { passageNumber },
        ),
      ),
  };
}
