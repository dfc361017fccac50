/** How much of a probability is lost when a passage is planned from a digest instead of the forecast it was made of. */
import { digestOfPassage, forecastOfDigest, packDigest, unpackDigest } from '../../lib/message/index.ts';
import { type OwnPlan, ownPlanJudge, type Plan, planPassage, type PlanInput } from '../../lib/planner/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { parseUtc } from '../../lib/time/index.ts';
import { griddedForecast } from './gridded-forecast.ts';
import { drawPassage, type PassageKind } from './passage.ts';
import { CHEAP_SOLVE } from './planner.ts';
import { drawForecast } from './weather.ts';

export interface DigestRow {
  readonly seed: number;
  readonly characters: number;
  /** The plan made from the digest, judged on the draws of the digest and on those of the whole forecast. */
  readonly fromDigest: number;
  readonly fromForecast: number;
  /** Jobs of the digest's plan, each judged both ways. */
  readonly jobs: readonly { readonly jobId: string; readonly fromDigest: number; readonly fromForecast: number }[];
  /** What the plan made from the whole forecast states, on its own draws. */
  readonly wholePlan: number;
}

export interface DigestStudy {
  readonly lengthH: number;
  readonly aheadH: number;
  readonly memberCount: number;
  readonly mostCharacterCount: number;
  readonly kind: PassageKind;
}

/** null: the digest's plan holds no work. */
export function digestRow(seed: number, study: DigestStudy): DigestRow | null {
  const passage = drawPassage(seed, study.kind);
  const forecast = griddedForecast(drawForecast(seed, study));
  const nowEpochMs = passage.fixedNowEpochMs ?? passage.start.epochMs;
  const digest = must(
    digestOfPassage({
      passage,
      forecast,
      nowEpochMs,
      aheadH: study.aheadH,
      mostCharacterCount: study.mostCharacterCount,
    }),
  );
  const text = packDigest(digest);
  const onBoard = forecastOfDigest(must(unpackDigest(text, 'digest')));
  const whole: PlanInput = { passage, forecast, nowEpochMs };
  const small: PlanInput = { passage, forecast: onBoard, nowEpochMs };
  const { plan } = must(planPassage(small, CHEAP_SOLVE));
  const own = ownPlanOf(plan);
  if (own.entries.length === 0) return null;
  const [digestCheck, wholeCheck] = [must(ownPlanJudge(small)).check(own), must(ownPlanJudge(whole)).check(own)];
  const wholePlan = must(planPassage(whole, CHEAP_SOLVE)).plan;
  return {
    seed,
    characters: text.length,
    fromDigest: digestCheck.allDoneProbability ?? 0,
    fromForecast: wholeCheck.allDoneProbability ?? 0,
    jobs: digestCheck.jobs.flatMap((job, k) => {
      const other = wholeCheck.jobs[k]?.probability ?? null;
      return job.probability === null || other === null
        ? []
        : [{ jobId: job.jobId, fromDigest: job.probability, fromForecast: other }];
    }),
    wholePlan: wholePlan.totals.allDoneProbability ?? 0,
  };
}

function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** A published plan as one made by hand. */
function ownPlanOf(plan: Plan): OwnPlan {
  const at = (utc: string): number => must(parseUtc(utc, 'plan'));
  return {
    entries: plan.entries.flatMap((entry) =>
      entry.kind === 'work' && entry.jobId !== null
        ? [{ jobId: entry.jobId, startEpochMs: at(entry.startUtc), handlingId: entry.handling, blockIndex: null }]
        : [],
    ),
    sleeps: plan.entries.flatMap((entry) =>
      entry.kind === 'sleep' ? [{ startEpochMs: at(entry.startUtc), endEpochMs: at(entry.endUtc) }] : [],
    ),
  };
}
