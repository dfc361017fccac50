/** What `plan` and `windows` publish against the JSON Schemas in the repository, and both against DEVELOPERS.md. */
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { planJsonSchema, publishedWindows, windowsJsonSchema } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { planPassage } from '../../lib/planner/index.ts';
import { DEFAULT_SETTINGS } from '../../lib/passage/settings.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { realForecast, realPassage, REAL_VOYAGES } from '../windows/real-passage.ts';
import { codesIn, readDocument, root, sectionOf, tableRows } from './document.ts';
import { keyOf, pathsOf, type Schema } from './schema-paths.ts';

type Json = Record<string, unknown>;

const read = (name: string): Schema & Json => JSON.parse(readDocument(name)) as Schema & Json;
const planSchema = read('lib/brief/plan.schema.json');
const windowsSchema = read('lib/brief/windows.schema.json');
const passageSchema = read('lib/passage/passage.schema.json');

/** Problems of a value, by the JSON Schema alone. */
const problemsOf = (schema: Json, value: unknown): readonly string[] => {
  const result = z.fromJSONSchema(schema).safeParse(value);
  return result.success ? [] : result.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
};

/** The value as a reader of the printed JSON gets it. */
const printed = (value: unknown): Json => JSON.parse(JSON.stringify(value)) as Json;

/** A narrow search: what is published is of interest here, not how good it is. */
const NARROW = { search: { beamWidths: [40], extensionBudget: 20_000 } };

/** Two jobs of the demo that can be done and one, aloft, that cannot. */
const few = (passage: Passage): Passage => ({
  ...passage,
  jobs: passage.jobs
    .filter(({ id }) => ['drop', 'halyard', 'masthead'].includes(id))
    .map((job) => ({ ...job, after: job.after.filter((id) => id === 'drop') })),
});

interface Published {
  readonly plan: Json;
  readonly windows: Json;
}
let demo: Published = { plan: {}, windows: {} };
let windOnly: Published = { plan: {}, windows: {} };
const jobsOf = ({ plan }: Published): Json[] => plan['jobs'] as Json[];

function planned(input: Parameters<typeof planPassage>[0]): Published {
  const found = planPassage(input, NARROW);
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return { plan: printed(found.value.plan), windows: printed(publishedWindows(found.value)) };
}

beforeAll(async () => {
  const loaded = await loadPassage(`${root}/sample-forecasts/demo-passage.json`);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const { passage, forecast } = loaded.value;
  demo = planned({ passage: few(passage), forecast, nowEpochMs: passage.fixedNowEpochMs ?? passage.start.epochMs });
  const [voyage] = REAL_VOYAGES;
  if (voyage === undefined) throw new Error('no real voyage');
  const real = realPassage(voyage);
  windOnly = planned({ passage: real, forecast: realForecast(), nowEpochMs: real.start.epochMs });
}, 60_000);

describe('JSON Schema files', () => {
  it.each([
    ['plan', planSchema, planJsonSchema],
    ['windows', windowsSchema, windowsJsonSchema],
  ])('%s: is what the code says; else: node --import tsx scripts/write-plan-schema.ts', (_, file, now) => {
    expect(file).toEqual(printed(now()));
  });
});

describe('published JSON', () => {
  it('the cases hold every kind of job: planned, conditional and unplanned', () => {
    const statuses = [demo, windOnly].flatMap((of) => jobsOf(of).map((job) => job['status']));
    expect(new Set(statuses)).toEqual(new Set(['planned', 'conditional', 'unplanned']));
  });

  it('plan of the demo and of a wind-only forecast: as the schema says', () => {
    expect(problemsOf(planSchema, demo.plan)).toEqual([]);
    expect(problemsOf(planSchema, windOnly.plan)).toEqual([]);
  });

  it('windows of the demo and of a wind-only forecast: as the schema says', () => {
    expect(problemsOf(windowsSchema, demo.windows)).toEqual([]);
    expect(problemsOf(windowsSchema, windOnly.windows)).toEqual([]);
  });

  it('a key more, at the top or deep inside, is refused by name', () => {
    expect(problemsOf(planSchema, { ...demo.plan, mood: 1 }).join()).toContain('mood');
    const jobs = jobsOf(demo).map((job, i) => (i === 0 ? { ...job, colour: 'green' } : job));
    expect(problemsOf(planSchema, { ...demo.plan, jobs }).join()).toContain('colour');
    expect(problemsOf(windowsSchema, { ...demo.windows, mood: 1 }).join()).toContain('mood');
  });

  it.each(['seed', 'entries', 'jobs', 'totals', 'firstFair', 'cautions'])('a plan without %s is refused', (key) => {
    const { [key]: _left, ...rest } = demo.plan;
    expect(problemsOf(planSchema, rest)).toHaveLength(1);
  });
});

const developers = readDocument('DEVELOPERS.md');

/** Codes in the first column of the tables of a section. */
const documented = (heading: string): readonly string[] =>
  tableRows(sectionOf(developers, heading)).flatMap(([first = '']) => codesIn(first));

describe('DEVELOPERS.md, field by field', () => {
  it('plan: every path of the schema once, and nothing else', () => {
    expect(documented('JSON of plan').toSorted()).toEqual(pathsOf(planSchema).toSorted());
  });

  it('windows: every path of the schema once, and nothing else', () => {
    expect(documented('JSON of windows').toSorted()).toEqual(pathsOf(windowsSchema).toSorted());
  });

  it('passage file: every path of the schema, and nothing that is not in it', () => {
    const paths = pathsOf(passageSchema);
    const named = documented('Passage file');
    expect(named.filter((path) => !paths.includes(path))).toEqual([]);
    const keys = new Set(named.map(keyOf));
    expect(paths.filter((path) => !keys.has(keyOf(path)))).toEqual([]);
  });

  it.each(Object.entries(DEFAULT_SETTINGS))('settings.%s: its default is %s', (key, value) => {
    const rows = tableRows(sectionOf(developers, 'Passage file'));
    const row = rows.find(([first = '']) => codesIn(first).includes(`settings.${key}`));
    expect(codesIn(row?.[1] ?? '')[0]).toBe(String(value));
  });
});
