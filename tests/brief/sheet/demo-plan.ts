/** Our own plan of the demo, cut down to its work and waits, in the invented weather of the pages' fixture. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { readPlan } from '../../../lib/brief/index.ts';
import { parsePassage, type Passage } from '../../../lib/passage/index.ts';
import type { JobPicture, Plan, PlanPicture } from '../../../lib/planner/index.ts';
import { picture as fixturePicture } from '../../pages/fixture-plan.ts';
import { demoText } from '../../pages/test-documents.ts';

function demoPlanOf(): Plan {
  const name = 'demo-plan.json';
  const read = readPlan(readFileSync(resolve(import.meta.dirname, name), 'utf8'), name);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { ...read.value, planNumber: 3 };
}

function demoPassageOf(): Passage {
  const read = parsePassage(demoText, 'demo');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

export const demoPlan = demoPlanOf();
export const demoPassage = demoPassageOf();

const [some] = fixturePicture.jobs;

/** Every job of the plan in the fixture's weather; weather must hold for 180 min. */
export const demoPicture: PlanPicture = {
  ...fixturePicture,
  jobs: demoPlan.jobs.flatMap(({ jobId, startUtc }): JobPicture[] =>
    some === undefined ? [] : [{ ...some, jobId, referenceMin: startUtc === null ? null : 180 }],
  ),
};
