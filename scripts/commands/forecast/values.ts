import { decodeField, type GribField, gridPositions, scanGrib, unitOfParameter } from '../../../lib/grib/index.ts';
import { assertNever, type Problem } from '../../../lib/result/index.ts';
import type { CommandIo } from '../command.ts';
import { takeApart, WrongUse } from './arguments.ts';
import { readFiles, reportProblems } from './read-files.ts';

export const VALUES_HELP = `slatch forecast values FILE --field N [--json | --csv]

  Every grid point of one field in file order, in the unit of the WMO table. N is the field's number in the list, or
  message.submessage.

  slatch forecast values gfs.grib2 --field 3 --csv
`;

/** `slatch forecast values`. */
export async function printValues(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { field: 'text', json: 'flag', csv: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [name] = given.files;
  const wanted = given.texts.get('field');
  if (name === undefined || given.files.length > 1) throw new WrongUse('exactly one FILE is needed.');
  if (wanted === undefined) throw new WrongUse('--field is missing: give a number of the list, such as --field 3.');
  if (!/^\d+(\.\d+)?$/.test(wanted))
    throw new WrongUse(`--field ${wanted}: expected a number, or message.submessage such as 4.2.`);
  const { files, problems } = await readFiles(io, [name]);
  const [file] = files;
  if (file === undefined) return fail(io, problems);
  const { fields, problems: damage } = scanGrib(file.bytes, file.name);
  const field = fieldNumbered(fields, wanted);
  if (field === undefined) return fail(io, [...damage, noSuchField(file.name, wanted, fields)]);
  const points = pointsOf(file.bytes, field);
  if (!points.ok) return fail(io, points.problems);
  writeAs(given.flags.has('json') ? 'json' : given.flags.has('csv') ? 'csv' : 'text', {
    io,
    field,
    points: points.value,
  });
  return 0;
}

function fail(io: CommandIo, problems: readonly Problem[]): number {
  reportProblems(io, problems);
  return 1;
}

function fieldNumbered(fields: readonly GribField[], wanted: string): GribField | undefined {
  const [first, second] = wanted.split('.').map(Number);
  return second === undefined
    ? fields.find((field) => field.fieldNumber === first)
    : fields.find((field) => field.messageNumber === first && field.submessageNumber === second);
}

function noSuchField(name: string, wanted: string, fields: readonly GribField[]): Problem {
  return {
    code: 'forecast.no-such-field',
    where: name,
    what: `There is no field ${wanted}.`,
    expected: fields.length === 0 ? 'a file with fields; this one has none' : `1 to ${fields.length}`,
    remedy: `slatch forecast list ${name} shows what there is.`,
  };
}

interface Points {
  readonly lats: Float64Array;
  readonly lons: Float64Array;
  readonly values: Float64Array;
}

function pointsOf(
  bytes: Uint8Array,
  field: GribField,
): { ok: true; value: Points } | { ok: false; problems: readonly Problem[] } {
  const values = decodeField(bytes, field);
  if (!values.ok) return values;
  if (field.grid.kind === 'unsupported') throw new Error('the points of a decoded field can be placed');
  return { ok: true, value: { ...gridPositions(field.grid), values: values.value } };
}

/** Unit of the values: a rate summed up over its interval is an amount. */
function unitOf(field: GribField): string | null {
  const unit = unitOfParameter(field);
  const isSum = field.validity.kind === 'interval' && field.validity.statistic === 'accumulation';
  return isSum && unit !== null ? unit.replace(/ s-1$/, '') : unit;
}

/** Points per piece of output, so that a large field is not one string. */
const PIECE_COUNT = 20_000;

function writeAs(form: 'json' | 'csv' | 'text', from: { io: CommandIo; field: GribField; points: Points }): void {
  const { io, field, points } = from;
  const unit = unitOf(field);
  switch (form) {
    case 'json':
      io.out(`{"field":${field.fieldNumber},"unit":${JSON.stringify(unit)},"points":[`);
      writePieces(io, points, { between: ',', of: (lat, lon, value) => `[${lat},${lon},${value ?? 'null'}]` });
      io.out(']}\n');
      return;
    case 'csv':
      io.out(`lat (deg),lon (deg),value (${unit ?? 'unit unknown'})\n`);
      writePieces(io, points, { between: '', of: (lat, lon, value) => `${lat},${lon},${value ?? ''}\n` });
      return;
    case 'text':
      io.out(`lat  lon  value [${unit ?? 'unit unknown'}]\n`);
      writePieces(io, points, { between: '', of: (lat, lon, value) => `${lat}  ${lon}  ${value ?? 'missing'}\n` });
      return;
    default:
      assertNever(form);
  }
}

interface PointText {
  readonly between: string;
  readonly of: (lat: number, lon: number, value: number | null) => string;
}

function writePieces(io: CommandIo, { lats, lons, values }: Points, text: PointText): void {
  for (let start = 0; start < values.length; start += PIECE_COUNT) {
    const end = Math.min(values.length, start + PIECE_COUNT);
    const piece = Array.from(values.subarray(start, end), (value, i) =>
      text.of(microdegrees(lats[start + i]), microdegrees(lons[start + i]), Number.isNaN(value) ? null : value),
    );
    io.out((start > 0 ? text.between : '') + piece.join(text.between));
  }
}

/** Grids are coded in microdegrees: further digits are rounding. */
const microdegrees = (angleDeg = Number.NaN): number => Math.round(angleDeg * 1e6) / 1e6;
