/** Which fields of the files a cut takes: run, kind, members and steps; nothing is decoded yet. */
import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import { formatUtc, MS_PER_H } from '../../time/index.ts';
import { groupBy } from '../choose-fields.ts';
import { leastOf, mostOf } from '../extremes.ts';
import type { ForecastFile } from '../forecast-files.ts';
import { isDewPoint } from '../humidity.ts';
import { CONTROL_ID, type MatchedField } from '../match-field.ts';
import { type ForecastOutline, outlineForecast } from '../outline-forecast.ts';
import { quantityOf, type QuantityId } from '../quantity.ts';
import { tooMuch } from '../too-much.ts';
import type { AreaToCut } from './cut-grid.ts';
import { askedQuantities, type CutMembers, type CutRequest } from './request.ts';
import { keptSteps, type KeptStep, type WantedSteps } from './thin-times.ts';

/** A step of a quantity in one member. */
export interface CutStep {
  readonly quantity: QuantityId;
  readonly memberId: string;
  readonly step: KeptStep;
}

/** Everything that is to be cut, and what there was to choose from. */
export interface ChosenSteps {
  readonly outline: ForecastOutline;
  readonly steps: readonly CutStep[];
  /** Perturbed members there are, and those of them kept. */
  readonly memberIds: readonly string[];
  readonly keptMemberIds: readonly string[];
}

/** Quantity after quantity, in each member after member. */
export function chooseSteps(
  files: readonly ForecastFile[],
  request: CutRequest,
  area: Pick<AreaToCut, 'box'>,
): Result<ChosenSteps> {
  const outline = outlineForecast(files, { around: area.box });
  const refusal = tooMuch(outline);
  if (refusal !== null) return failed(refusal);
  const asked = withAirForDewPoints(outline, askedQuantities(request));
  const chosen = outline.quantities.filter(({ quantity }) => asked.includes(quantity));
  const all = chosen.flatMap(({ single }) => single.fields);
  const memberIds = [...new Set(all.map(({ memberId }) => memberId))].filter((id) => id !== CONTROL_ID).toSorted();
  const keptMemberIds = membersKept(memberIds, request.members ?? 'all');
  const kept = new Set([CONTROL_ID, ...keptMemberIds]);
  const steps = chosen.flatMap(({ quantity, chosen: { baseEpochMs }, single }) =>
    [...groupBy(single.fields, (found) => found.memberId)]
      .filter(([memberId]) => kept.has(memberId))
      .flatMap(([memberId, fields]) =>
        keptSteps(fields, wantedSteps(request, baseEpochMs)).map((step) => ({ quantity, memberId, step })),
      ),
  );
  if (steps.length === 0) return failed(nothingLeft(outline, request), ...outline.problems);
  return ok({ outline, steps: withAirOfDewPoints(outline, steps), memberIds, keptMemberIds });
}

const wantedSteps = ({ fromEpochMs, toEpochMs, everyH }: CutRequest, baseEpochMs: number): WantedSteps => ({
  fromEpochMs: fromEpochMs ?? -Infinity,
  toEpochMs: toEpochMs ?? Infinity,
  everyMs: everyH === undefined ? null : everyH * MS_PER_H,
  baseEpochMs,
});

function membersKept(memberIds: readonly string[], members: CutMembers): readonly string[] {
  if (members === 'all') return memberIds;
  if (members === 'control') return [];
  return memberIds.filter((_, i) => i % members.everyCount === 0);
}

/** Humidity that is made of dew points needs the air temperature too. */
function withAirForDewPoints({ quantities }: ForecastOutline, asked: readonly QuantityId[]): readonly QuantityId[] {
  const hasDewPoints = quantities.some(
    ({ quantity, single }) => quantity === 'humidity' && single.fields.some(isDewPoint),
  );
  return hasDewPoints && asked.includes('humidity') && !asked.includes('air') ? [...asked, 'air'] : asked;
}

/** Thinning may keep other hours of the air than of the dew point: those of the dew point are added. */
function withAirOfDewPoints({ quantities }: ForecastOutline, steps: readonly CutStep[]): readonly CutStep[] {
  const dewPoints = steps.filter(({ step }) => step.chain[0].fields.some(isDewPoint));
  if (dewPoints.length === 0) return steps;
  const air = quantities.find(({ quantity }) => quantity === 'air')?.single.fields ?? [];
  const held = new Set(steps.filter(({ quantity }) => quantity === 'air').map(hourOf));
  const added = dewPoints
    .filter((dewPoint) => !held.has(hourOf(dewPoint)))
    .flatMap(({ memberId, step }): CutStep[] => {
      const fields: readonly MatchedField[] = air.filter(
        (found) => found.memberId === memberId && found.endEpochMs === step.endEpochMs,
      );
      const group = { startEpochMs: step.startEpochMs, endEpochMs: step.endEpochMs, fields };
      return fields.length === 0 ? [] : [{ quantity: 'air', memberId, step: { ...step, chain: [group] } }];
    });
  return [...steps, ...added];
}

const hourOf = ({ memberId, step }: CutStep): string => `${memberId} ${step.endEpochMs}`;

function nothingLeft({ quantities, files }: ForecastOutline, request: CutRequest): Problem {
  const asked = askedQuantities(request);
  const held = quantities.map(({ quantity }) => quantity);
  const there = quantities.filter(({ quantity }) => asked.includes(quantity));
  const where = files.map(({ name }) => name).join(', ') || 'forecast';
  const about = { code: 'cut.nothing-left', where };
  if (held.length === 0) {
    return {
      ...about,
      what: 'None of the files holds a quantity Slatch can use.',
      expected: 'GRIB with wind at 10 m, gust, waves or pressure',
      remedy: 'Give other files.',
    };
  }
  if (there.length === 0) {
    return {
      ...about,
      what: `The files hold none of ${asked.join(', ')}.`,
      expected: `some of what they hold: ${held.join(', ')}`,
      remedy: 'Ask for these quantities, or give other files.',
    };
  }
  const fields = there.flatMap(({ single }) => single.fields);
  const first = formatUtc(leastOf(fields, ({ startEpochMs }) => startEpochMs));
  const last = formatUtc(mostOf(fields, ({ endEpochMs }) => endEpochMs));
  const names = there.map(({ quantity }) => quantityOf(quantity).name).join(', ');
  const isNoControl = request.members === 'control' && fields.every(({ memberId }) => memberId !== CONTROL_ID);
  return isNoControl
    ? {
        ...about,
        what: 'The files hold members of an ensemble, and no control run.',
        expected: 'a control run, or a single forecast',
        remedy: 'Keep members, for example every fifth.',
      }
    : {
        ...about,
        what: `No step of ${names} lies in the span asked for.`,
        expected: `hours between ${first} and ${last}`,
        remedy: 'Ask for other hours, or give other files.',
      };
}
