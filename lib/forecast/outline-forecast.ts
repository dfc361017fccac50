/** Fields of GRIB files that make one forecast, found from their headers; no value is decoded yet. */
import { decodePart, type FramePart, type GribField, scanGrib } from '../grib/index.ts';
import type { Problem, Result } from '../result/index.ts';
import type { Box } from './box.ts';
import { chooseDuplicates, type SingleFields } from './choose-duplicates.ts';
import { chooseFields, type ChosenFields } from './choose-fields.ts';
import type { ForecastFile } from './forecast.ts';
import { memberNotes } from './forecast-notes.ts';
import { type GridShelf, gridShelf, shelvedGrid } from './grid-shelf.ts';
import { usableDewPoints } from './humidity.ts';
import { type MatchedField, matchField } from './match-field.ts';
import { QUANTITIES, type QuantityId } from './quantity.ts';

/** A field whose values are wanted, and the part of its grid that is kept (null: all of it). */
export interface WantedField {
  /** The file it was found in. */
  readonly bytes: Uint8Array;
  readonly field: GribField;
  readonly part: FramePart | null;
}

/** What was chosen for one quantity. */
export interface ChosenQuantity {
  readonly quantity: QuantityId;
  readonly chosen: ChosenFields;
  readonly single: SingleFields;
}

/** A forecast before its values are decoded. */
export interface ForecastOutline {
  readonly files: readonly ForecastFile[];
  /** Every field to decode, once, file by file. */
  readonly wanted: readonly WantedField[];
  readonly quantities: readonly ChosenQuantity[];
  readonly shelf: GridShelf;
  readonly problems: readonly Problem[];
  readonly notes: readonly string[];
}

export interface OutlineOptions {
  /** Area that will be asked for; values further than two grid steps outside are not kept. */
  readonly around?: Box;
}

/** Chooses the fields: for each quantity the newest run, and of several fields for an hour the finest grid that covers the box. */
export function outlineForecast(files: readonly ForecastFile[], options: OutlineOptions = {}): ForecastOutline {
  const shelf = gridShelf(options.around ?? null);
  const found = matchFiles(files);
  const quantities = QUANTITIES.flatMap(({ id }) => {
    const matched = found.matched.filter(({ row }) => row.quantity === id);
    const chosen = chooseFields(id, matched);
    return chosen === null ? [] : [{ quantity: id, chosen, single: chooseDuplicates(chosen.fields, shelf.box) }];
  });
  const fields = new Set(quantities.flatMap(({ single }) => single.fields.map(({ field }) => field)));
  const wanted = [...found.bytesOfField]
    .filter(([field]) => fields.has(field))
    .map(([field, bytes]) => ({ bytes, field, part: shelvedGrid(shelf, field).part }));
  return { files, wanted, quantities, shelf, problems: found.problems, notes: found.notes };
}

/** Decodes a wanted field; `scratch` as for `decodePart`. */
export const decodeWanted = ({ bytes, field, part }: WantedField, scratch: Float64Array): Result<Float32Array> =>
  decodePart(bytes, field, { part, scratch });

interface Found {
  readonly matched: readonly MatchedField[];
  readonly bytesOfField: ReadonlyMap<GribField, Uint8Array>;
  readonly problems: readonly Problem[];
  readonly notes: readonly string[];
}

function matchFiles(files: readonly ForecastFile[]): Found {
  const bytesOfField = new Map<GribField, Uint8Array>();
  const matched: MatchedField[] = [];
  const problems: Problem[] = [];
  const fields: GribField[] = [];
  for (const file of files) {
    const scan = scanGrib(file.bytes, file.name);
    problems.push(...scan.problems);
    for (const field of scan.fields) {
      fields.push(field);
      const match = matchField(field);
      if (match === null) continue;
      if (field.support !== null) problems.push(field.support);
      else {
        bytesOfField.set(field, file.bytes);
        matched.push(match);
      }
    }
  }
  const usable = usableDewPoints(matched);
  return { matched: usable.matched, bytesOfField, problems, notes: [...memberNotes(fields), ...usable.notes] };
}
