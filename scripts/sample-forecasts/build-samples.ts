import { type GribMessageSpec, writeGrib2Message } from '../../lib/grib/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { MEMBER_COUNT, memberErrorAt } from './member-errors.ts';
import { CONTROL_FIELDS, MEMBER_FIELDS, type PointStep, type SampleField } from './sample-fields.ts';
import { type SampleGrid, sampleGrid, type SamplePoint } from './sample-grid.ts';
import {
  controlWeather,
  LEAD_AT_START_H,
  type MemberError,
  memberWeather,
  type PatternPlace,
  type PatternWeather,
} from './weather-pattern.ts';

export const CONTROL_FILE = 'demo-control.grib2';
export const MEMBERS_FILE = 'demo-members.grib2';
/** Base time of both files: 6 h before the demo voyage starts. */
export const BASE_EPOCH_MS = Date.UTC(2026, 4, 27, 12);
const LAST_LEAD_H = 192;

/** Gusts and rain are looked at this often within a step. */
const SAMPLES_PER_H = 2;
/** Code table 4.6: control of an ensemble; positively perturbed. */
const CONTROL_TYPE = 1;
const PERTURBED_TYPE = 3;

export interface Run {
  readonly spacingDeg: number;
  readonly stepH: number;
  readonly fields: readonly SampleField[];
  /** 0: the control. */
  readonly memberNumber: number;
  /** Members of the ensemble, without the control. */
  readonly memberCount: number;
  /** Error of a member at a lead. */
  readonly errorAt: (leadH: number) => MemberError;
}

export const CONTROL_RUN: Run = {
  spacingDeg: 0.5,
  stepH: 3,
  fields: CONTROL_FIELDS,
  memberNumber: 0,
  memberCount: MEMBER_COUNT,
  errorAt: () => {
    throw new Error('the control has no error');
  },
};

const memberRun = (memberNumber: number): Run => ({
  spacingDeg: 1,
  stepH: 6,
  fields: MEMBER_FIELDS,
  memberNumber,
  memberCount: MEMBER_COUNT,
  errorAt: (leadH) => memberErrorAt(memberNumber, leadH),
});

/** The control's file. */
export const controlFile = (): Uint8Array => joined(runMessages(CONTROL_RUN));

/** The members' file: one member after another. */
export const membersFile = (): Uint8Array =>
  joined(Array.from({ length: MEMBER_COUNT }, (_, i) => runMessages(memberRun(i + 1))).flat());

/** Members with errors of their own, in the members' grid and steps: one member after another. */
export const fileOfMembers = (errors: readonly Run['errorAt'][]): Uint8Array =>
  joined(errors.flatMap((errorAt, i) => runMessages({ ...memberRun(i + 1), memberCount: errors.length, errorAt })));

/** Messages of one run, step by step; the same octets every time. */
function runMessages(run: Run): Uint8Array[] {
  const grid = sampleGrid(run.spacingDeg);
  return Array.from({ length: LAST_LEAD_H / run.stepH + 1 }, (_, step) =>
    stepMessages(run, grid, step * run.stepH),
  ).flat();
}

function stepMessages(run: Run, grid: SampleGrid, leadH: number): Uint8Array[] {
  const weather = weatherOf(run, leadH);
  const steps = grid.points.map((point) => pointStep(point, weather));
  return run.fields
    .filter(({ statistic }) => statistic === null || leadH > 0)
    .map((field) => writeGrib2Message(messageSpec({ run, field, leadH }, grid, steps)));
}

type WeatherAtPlace = (place: PatternPlace) => PatternWeather;

/** The weather at the samples of the interval that ends at a lead; before the first step at its one instant. */
function weatherOf(run: Run, leadH: number): readonly WeatherAtPlace[] {
  const count = leadH === 0 ? 0 : run.stepH * SAMPLES_PER_H;
  return Array.from({ length: count + 1 }, (_, i) => {
    const atLeadH = leadH - (count - i) / SAMPLES_PER_H;
    const hourH = atLeadH - LEAD_AT_START_H;
    if (run.memberNumber === 0) return (place) => controlWeather(place, hourH);
    const error = run.errorAt(atLeadH);
    return (place) => memberWeather(place, hourH, error);
  });
}

/** Highest gust of the samples; rain by the trapezoidal rule. */
function pointStep(point: SamplePoint, weather: readonly WeatherAtPlace[]): PointStep {
  let highestGustKn = 0;
  let rainMm = 0;
  let before: PatternWeather | null = null;
  for (const at of weather) {
    const now = at(point.place);
    highestGustKn = Math.max(highestGustKn, now.gustKn);
    if (before !== null) rainMm += (before.rainMmPerH + now.rainMmPerH) / 2 / SAMPLES_PER_H;
    before = now;
  }
  if (before === null) throw new Error('a step without a sample');
  return { point, atEnd: before, highestGustKn, rainMm };
}

function messageSpec(
  { run, field, leadH }: { run: Run; field: SampleField; leadH: number },
  { grid }: SampleGrid,
  steps: readonly PointStep[],
): GribMessageSpec {
  const endEpochMs = BASE_EPOCH_MS + leadH * MS_PER_H;
  const { statistic } = field;
  return {
    parameter: field.parameter,
    level: field.level,
    referenceEpochMs: BASE_EPOCH_MS,
    validity:
      statistic === null
        ? { kind: 'instant', validEpochMs: endEpochMs }
        : { kind: 'interval', startEpochMs: endEpochMs - run.stepH * MS_PER_H, endEpochMs, statistic },
    ensemble: {
      typeCode: run.memberNumber === 0 ? CONTROL_TYPE : PERTURBED_TYPE,
      perturbationNumber: run.memberNumber,
      memberCount: run.memberCount + 1,
    },
    grid,
    values: steps.map((step) => (field.isOfSea && step.point.isLand ? Number.NaN : field.valueOf(step))),
    decimalScaleFactor: field.decimalScaleFactor,
  };
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
