import { z } from 'zod';
import type { Result } from '../result/index.ts';
import { readJson, readShape } from './json-shape.ts';
import type { ComparablePlan } from './plan-changes.ts';
import { publishedFinding } from './published-schema.ts';

const utc = z.string().refine((text) => !Number.isNaN(Date.parse(text)), 'an instant such as 2026-05-28T18:40Z');
const share = z.number().min(0).max(1);

/** What is compared of the JSON of `slatch plan`; other keys, of other versions too, are left alone. */
const comparablePlan = z.looseObject({
  planNumber: z.int().positive().nullable().exactOptional(),
  madeAtUtc: utc,
  forecast: z.looseObject({ baseTimeUtc: utc }).exactOptional(),
  passageName: z.string(),
  totals: z.looseObject({ allDoneProbability: share.nullable() }),
  jobs: z.array(
    z.looseObject({
      jobId: z.string(),
      name: z.string(),
      status: z.enum(['planned', 'conditional', 'unplanned', 'done']),
      startUtc: utc.nullable(),
      handling: z.string().nullable(),
      probability: share.nullable(),
      fallback: z.looseObject({ startUtc: utc, lastStartUtc: utc }).nullable(),
      nearestMiss: z.looseObject({ reason: z.string(), text: z.string() }).nullable(),
      why: z.string().nullable().exactOptional(),
      whyNotEarlier: z.string().nullable().exactOptional(),
      notEarlier: z
        .array(z.looseObject({ firstStartUtc: utc, lastStartUtc: utc, finding: publishedFinding.nullable() }))
        .exactOptional(),
      bindingLimit: z
        .looseObject({ limit: z.string(), observed: z.number(), required: z.number(), unit: z.string() })
        .nullable()
        .exactOptional(),
      unknownLimits: z.array(z.string()).exactOptional(),
    }),
  ),
});

/**
 * Reads the JSON of `slatch plan` as far as plans are compared.
 *
 * @param file named in the problems
 * @returns the plan, or all of `plan.not-json`, `plan.missing`, `plan.value`
 */
export function readPlanToCompare(text: string, file: string): Result<ComparablePlan> {
  const as = { file, kind: 'plan' };
  const json = readJson(text, as);
  return json.ok ? readShape(comparablePlan, json.value, as) : json;
}
