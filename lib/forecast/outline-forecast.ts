/** Fields of GRIB files that make one forecast, found from their headers; no value is decoded yet. */
import type { FramePart, GribField } from '../grib/index.ts';
import type { Problem, Result } from '../result/index.ts';
import type { Box } from './box.ts';
import { chooseDuplicates, type SingleFields } from './choose-duplicates.ts';
import { chooseFields, type ChosenFields } from './choose-fields.ts';
import { decodeOf, type ForecastFile, scanFile } from './forecast-files.ts';
import { memberNotes } from './forecast-notes.ts';
import { type GridShelf, gridShelf, shelvedGrid } from './grid-shelf.ts';
import { usableDewPoints } from './humidity.ts';
import { type MatchedField, matchField } from './match-field.ts';
import { QUANTITIES, type QuantityId } from './quantity.ts';

/** A field whose values are wanted, and the part of its grid that is kept (null: all of it). */
export interface WantedField {
  /** The file it was found in. */
  readonly file: ForecastFile;
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
  const wanted = [...found.fileOfField]
    .filter(([field]) => fields.has(field))
    .map(([field, file]) => ({ file, field, part: shelvedGrid(shelf, field).part }));
  return { files, wanted, quantities, shelf, problems: found.problems, notes: found.notes };
}

/** Decodes a wanted field; `scratch` as for `decodePart`. */
export const decodeWanted = ({ file, field, part }: WantedField, scratch: Float64Array): Result<Float32Array> =>
  decodeOf(file, field, { part, scratch });

interface Found {
  readonly matched: readonly MatchedField[];
  readonly fileOfField: ReadonlyMap<GribField, ForecastFile>;
  readonly problems: readonly Problem[];
  readonly notes: readonly string[];
}

function matchFiles(files: readonly ForecastFile[]): Found {
  const fileOfField = new Map<GribField, ForecastFile>();
  const matched: MatchedField[] = [];
  const problems: Problem[] = [];
  const fields: GribField[] = [];
  for (const file of files) {
    const scan = scanFile(file);
    problems.push(...scan.problems);
    for (const field of scan.fields) {
      fields.push(field);
      const match = matchField(field);
      if (match === null) continue;
      if (field.support !== null) problems.push(field.support);
      else {
        fileOfField.set(field, file);
        matched.push(match);
      }
    }
  }
  const usable = usableDewPoints(matched);
  return { matched: usable.matched, fileOfField, problems, notes: [...memberNotes(fields), ...usable.notes] };
}
