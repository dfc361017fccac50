/** A short forecast over the date line, and a way through it. */
import type { Forecast } from '../../../lib/forecast/index.ts';
import type { Position } from '../../../lib/geo/index.ts';
import { parsePassage, type Passage } from '../../../lib/passage/index.ts';
import { coverageData } from '../../../server/presenters/coverage/coverage-data.ts';
import type { CoverageData } from '../../../server/presenters/coverage/coverage-model.ts';
import { timeTexts } from '../../../server/presenters/time-texts.ts';
import { atH, fileOf } from '../../forecast/sample-fields.ts';
import { demoText } from '../../pages/test-documents.ts';

/** UTC, so that hours read as the steps do: the base is Wednesday 27 May 00:00. */
export const times = timeTexts(0);

const demo = parsePassage(demoText, 'demo');
if (!demo.ok) throw new Error('the demo cannot be read');
const passage: Passage = demo.value;

/** The demo's passage with limits of its first job's steps changed. */
export function passageWith(limits: Partial<Passage['jobs'][number]['steps'][number]['limits']>): Passage {
  const [first, ...rest] = passage.jobs;
  if (first === undefined) throw new Error('the demo has jobs');
  const steps = first.steps.map((step) => ({ ...step, limits: { ...step.limits, ...limits } }));
  const bare = rest.map((job) => ({
    ...job,
    steps: job.steps.map((step) => ({ ...step, limits: { ...step.limits, visibilityLeastNm: null } })),
  }));
  return { ...passage, jobs: [{ ...first, steps }, ...bare] };
}

export interface Asked {
  readonly forecast: Forecast;
  readonly messages?: readonly Uint8Array[];
  readonly from: Position;
  readonly to: Position;
  readonly hours: number;
  readonly planHours?: number;
  readonly of?: Passage;
}

/** One slot an hour from the base on, straight from a place to another. */
export function covered({
  forecast,
  messages = [],
  from,
  to,
  hours,
  planHours = hours,
  of = passage,
}: Asked): CoverageData {
  const grid = { firstEpochMs: atH(0), slotMin: 60, slotCount: hours + 1 };
  const along = (one: number, other: number): Float64Array =>
    Float64Array.from({ length: hours + 1 }, (_, i) => one + ((other - one) * i) / hours);
  return coverageData({
    passage: of,
    forecast,
    files: messages.length === 0 ? [] : [{ name: 'sample.grib2', bytes: fileOf(...messages) }],
    nominal: { grid, lat: along(from.lat, to.lat), lon: along(from.lon, to.lon), alongNm: along(0, hours * 5) },
    fromSlot: 0,
    untilSlot: planHours,
  });
}
