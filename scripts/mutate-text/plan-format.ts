import { comparedPlansText, planChanges, readOwnPlan, readPlan, readPlanToCompare } from '../../lib/brief/index.ts';
import { planMessageOf } from '../../lib/message/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { ownPlanJudge, type OwnPlanJudge, type Plan } from '../../lib/planner/index.ts';
import { accepted, type Attempt, differenceOf, refused } from './attempt.ts';
import { decoded, type Depth, type TextFormat } from './format.ts';
import { jsonDamages } from './json-damages.ts';
import { littleForecast, littlePassage, littlePlan, must } from './little-world.ts';

const GIANT_ONE_IN = 60;
const FILE = 'mutant.json';

/** The JSON of a plan as `--standing`, `compare` and `check` read it, and a plan made by hand. */
export function planFormat(): TextFormat {
  const passage = littlePassage();
  const { plan } = littlePlan();
  const own = ownPlanOf(plan);
  const input = { passage, forecast: littleForecast(), nowEpochMs: passage.fixedNowEpochMs ?? 0 };
  const judge = must(ownPlanJudge(input));
  return {
    samples: [
      { name: 'plan', text: JSON.stringify(plan, null, 1) },
      { name: 'plan made by hand', text: JSON.stringify(own, null, 1) },
    ],
    own: jsonDamages(GIANT_ONE_IN),
    attempt: (octets, depth) => {
      const text = decoded(octets);
      const attempts = [
        whole(text, depth),
        compared(text, plan),
        byHand(text, passage, depth === 'used' ? judge : null),
      ];
      const fault = attempts.find((one) => one.fault !== null)?.fault ?? null;
      const isAccepted = attempts.some(({ codes }) => codes.includes('accepted'));
      return { codes: isAccepted ? ['accepted'] : [...new Set(attempts.flatMap(({ codes }) => codes))], fault };
    },
  };
}

const ownPlanOf = (plan: Plan): object => ({
  entries: plan.entries.flatMap(({ kind, jobId, startUtc, handling }) =>
    kind === 'work' ? [{ jobId, startUtc, handling }] : [],
  ),
  sleeps: plan.entries.flatMap(({ kind, startUtc, endUtc }) => (kind === 'sleep' ? [{ startUtc, endUtc }] : [])),
});

function whole(text: string, depth: Depth): Attempt {
  const read = readPlan(text, FILE);
  if (!read.ok) return refused(read.problems, text);
  if (depth === 'read') return accepted(null);
  const message = planMessageOf(read.value);
  if (!message.ok) return refused(message.problems, text);
  const again = readPlan(JSON.stringify(read.value), FILE);
  return accepted(again.ok ? differenceOf(read.value, again.value) : 'written again it is refused');
}

function compared(text: string, plan: Plan): Attempt {
  const read = readPlanToCompare(text, FILE);
  if (!read.ok) return refused(read.problems, text);
  const plans = { older: plan, newer: read.value };
  comparedPlansText(plans, { changes: planChanges(plan, read.value) }, { shipTimeOffsetMin: 0 });
  planChanges(read.value, plan);
  return accepted(null);
}

function byHand(text: string, passage: Passage, judge: OwnPlanJudge | null): Attempt {
  const read = readOwnPlan(text, FILE, passage);
  if (!read.ok) return refused(read.problems, text);
  judge?.check(read.value);
  return accepted(null);
}
