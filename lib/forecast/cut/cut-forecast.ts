/** The part of GRIB files that a boat needs, as a file of edition 2. */
import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import type { ForecastFile } from '../forecast-files.ts';
import { type ChosenSteps, chooseSteps } from './choose-steps.ts';
import { type AreaToCut, boxOfArea } from './cut-grid.ts';
import { type CutSummary, summarise } from './cut-summary.ts';
import { type PlannedFields, plannedFields } from './planned-fields.ts';
import { type CutRequest, requestProblems } from './request.ts';
import { corridorOf } from './way.ts';
import { writeSmallest } from './write-smallest.ts';

/** A file of edition 2, and what it holds of the files before. */
export interface CutForecast {
  readonly bytes: Uint8Array;
  readonly summary: CutSummary;
}

/**
 * Cuts the part needed out of GRIB files: of each quantity the run that a forecast of all files would use, in the area, at
 * the steps, of the members asked for.
 *
 * Inside the area and the span of time, a forecast built of the cut reads as one built of the files, but for rounding
 * (`summary.kept`), for steps left out and for grids thinned or resampled. Sections 1 and 4 of messages of edition 2 are
 * copied; edition 1 is translated. Components along a resampled map become true ones.
 *
 * @returns the file, or every reason why nothing could be cut
 */
export function cutForecast(files: readonly ForecastFile[], request: CutRequest): Result<CutForecast> {
  const [wrong, ...others] = requestProblems(request);
  if (wrong !== undefined) return failed(wrong, ...others);
  const area = areaToCut(request);
  const chosen = chooseSteps(files, request, area);
  if (!chosen.ok) return chosen;
  const planned = plannedFields(chosen.value, area, request.precision ?? 'fine');
  const [refusal, ...refusals] = planned.refusals;
  if (refusal !== undefined) return failed(refusal, ...refusals);
  if (planned.fields.length === 0) return failed(nothingHere(chosen.value, planned), ...planned.problems);
  const written = writeSmallest(planned.fields, request);
  return ok({ bytes: written.bytes, summary: summarise({ request, chosen: chosen.value, planned, written }) });
}

function areaToCut({ area, spareCellCount = 1, everyPointCount = 1, resample = false }: CutRequest): AreaToCut {
  const corridor = corridorOf(area);
  const box = boxOfArea(area.kind === 'box' ? area.box : null, corridor);
  return { box, corridor, spareCellCount, everyPointCount, resample };
}

function nothingHere({ outline }: ChosenSteps, { outside }: PlannedFields): Problem {
  const where = outline.files.map(({ name }) => name).join(', ');
  if (outside.size === 0) {
    return {
      code: 'cut.nothing-left',
      where,
      what: 'None of the fields in the area and the span could be read.',
      expected: 'at least one whole field',
      remedy: 'Fetch the files again.',
    };
  }
  return {
    code: 'cut.area-outside',
    where,
    what: `The grids of ${[...outside].join(', ')} do not reach the area asked for.`,
    expected: 'an area on the grid of the files',
    remedy: 'Ask for another area, or give files of a larger one: slatch forecast list shows their grids.',
  };
}
