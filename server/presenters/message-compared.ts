import { type PlanMessage, type PlanMessageJob, planMessageOf } from '../../lib/message/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { type TimeTexts, timeTexts } from './time-texts.ts';

/** A plan that came in, held against the one that is shown; null: there is none. */
export function comparedWithOwn(message: PlanMessage, plan: Plan | null, passage: Passage): readonly string[] {
  const own = plan === null ? null : planMessageOf(plan);
  if (own === null || !own.ok) return ['There is no plan here to hold it against.'];
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const names = new Map(passage.jobs.map(({ id, name }) => [id, name]));
  const nameOf = (jobId: string): string => names.get(jobId) ?? `“${jobId}”`;
  const jobs = [...message.jobs.flatMap((job) => jobLine(job)), ...missingLines()];
  return [
    numberLine(message, own.value, times),
    ...(jobs.length === 0 ? ['Its jobs stand as they do here, and start when they do here.'] : jobs),
  ];

  function jobLine(job: PlanMessageJob): string[] {
    const here = own?.ok === true ? own.value.jobs.find(({ jobId }) => jobId === job.jobId) : undefined;
    if (here === undefined) return [`${nameOf(job.jobId)}: it is not in the plan here.`];
    const [told, shown] = [job, here].map((one) => standsAs(one, times));
    return told === shown ? [] : [`${nameOf(job.jobId)}: ${told ?? ''}; here: ${shown ?? ''}.`];
  }

  function missingLines(): string[] {
    if (own?.ok !== true || message.leftOutCount > 0) return [];
    const told = new Set(message.jobs.map(({ jobId }) => jobId));
    return own.value.jobs
      .filter(({ jobId, status }) => !told.has(jobId) && (status === 'planned' || status === 'conditional'))
      .map(({ jobId }) => `${nameOf(jobId)}: it is planned here, and not in the message.`);
  }
}

function numberLine(message: PlanMessage, own: PlanMessage, times: TimeTexts): string {
  const here =
    own.planNumber === null ? 'the plan shown here has none' : `the plan shown here is plan ${own.planNumber}`;
  const made = `${times.full(message.madeEpochMs)} (${times.utc(message.madeEpochMs)})`;
  if (message.planNumber === null) return `It has no number, and was made ${made}; ${here}.`;
  if (message.planNumber !== own.planNumber) return `It is plan ${message.planNumber}, made ${made}; ${here}.`;
  if (message.madeEpochMs === own.madeEpochMs) return `It is the plan shown here, plan ${message.planNumber}.`;
  return `It has the number of the plan shown here, ${message.planNumber}, but was made at another time, ${made}: it is another plan.`;
}

/** `planned, starts Thu 14:00 under run-off` */
function standsAs({ status, work }: PlanMessageJob, times: TimeTexts): string {
  const [first] = work;
  const words = status === 'unplanned' ? 'not planned' : status;
  if (first === undefined || status === 'unplanned') return words;
  return `${words}, starts ${times.dayTime(first.startEpochMs)}${first.handling === null ? '' : ` under ${first.handling}`}`;
}
