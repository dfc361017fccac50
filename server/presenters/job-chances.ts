import type { PlannedJob, PlanPicture } from '../../lib/planner/index.ts';
import { of100, plusMinus } from './amount-texts.ts';
import { chanceWord } from './chance-words.ts';
import type { Fact } from './fact.ts';

/** How sure: the weather over the time booked, then the work as it really goes. */
export function chanceFacts(job: PlannedJob, picture: PlanPicture): Fact[] {
  if (job.probability === null) return [];
  const own = picture.jobs.find(({ jobId }) => jobId === job.jobId);
  const rest = `of 100 ${plusMinus(own?.probabilitySd ?? null)}`.trim();
  const short =
    job.probability < picture.wantedProbability ? `; less than the ${of100(picture.wantedProbability)} you want` : '';
  return [
    {
      term: 'Stays inside limits',
      figure: String(of100(job.probability)),
      rest,
      below: `${chanceWord(job.probability)}${short}`,
    },
    ...rehearsedFacts(job),
  ];
}

/** With work times that vary. It stands beside the first figure, never instead. */
export function rehearsedFacts({
  doneInsideLimitsProbability: done,
  coreInterruptedProbability: caught,
}: PlannedJob): Fact[] {
  if (done === null) return [];
  const middle = caught === null || caught === 0 ? '' : `; caught halfway in ${of100(caught)}`;
  return [
    {
      term: 'Done inside limits',
      figure: String(of100(done)),
      rest: 'of 100',
      below: `if the work runs short or long${middle}`,
    },
  ];
}
