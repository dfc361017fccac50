import path from 'node:path';
import {
  type Box,
  type CutArea,
  cutForecast,
  type CutMembers,
  type CutPrecision,
  type CutRequest,
  type CutSummary,
  type KeptQuantity,
  quantityOf,
} from '../../../lib/forecast/index.ts';
import type { Problem } from '../../../lib/result/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { measureTrack, positionAtNm, type Track } from '../../../lib/track/index.ts';
import { instantOption } from '../arguments.ts';
import { replaceFile } from '../replace-file.ts';
import type { CommandIo } from '../command.ts';
import { readPassageFile } from '../read-passage.ts';
import { numberOption, takeApart, type TakenApart, WrongUse } from './arguments.ts';
import { openFiles, reportProblems } from './read-files.ts';

export const CUT_HELP = `slatch forecast cut [FILE…] --out FILE (--passage PASSAGE | --box S,W,N,E) [--margin-nm NM]
    [--from UTC] [--to UTC] [--every-h H] [--quantities LIST] [--every-member N | --control-only]
    [--every-point N] [--precision fine|coarse] [--resample] [--separate] [--json]

  Writes the part that is needed as GRIB edition 2: around the track of a passage, or in a box in signed degrees. Without
  FILE the forecasts that the passage names are cut. Says how many octets there were and are, how exact the values are,
  and what is left out.
  --margin-nm     kept to either side of the track; 60
  --every-h       steps no closer than this, 1 to 12
  --quantities    such as wind,gust,seaHeight; all that there are
  --every-member  every N-th member of an ensemble; the control run is always kept
  --control-only  no members
  --every-point   every N-th row and column of the grids
  --resample      puts grids that are not regular on a regular one; otherwise they are refused
  --separate      a message for each field, for programs that read only the first field of a message

  slatch forecast cut gfs.grib2 --out small.grib2 --box -40,170,-30,-150 --every-h 6 --quantities wind,gust,seaHeight
`;

const DEFAULT_MARGIN_NM = 60;
const MOST_MARGIN_NM = 600;
/** Distance between the places of a track [nm]: a rhumb line leaves a great circle by less than a metre in it. */
const PLACE_STEP_NM = 5;

/** `slatch forecast cut`. */
export async function cutFiles(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, {
    out: 'text',
    passage: 'text',
    box: 'text',
    'margin-nm': 'text',
    from: 'text',
    to: 'text',
    'every-h': 'text',
    quantities: 'text',
    'every-member': 'text',
    'control-only': 'flag',
    'every-point': 'text',
    precision: 'text',
    resample: 'flag',
    separate: 'flag',
    json: 'flag',
  });
  if (typeof given === 'string') throw new WrongUse(given);
  const out = given.texts.get('out');
  if (out === undefined) throw new WrongUse('--out is missing: the file to write.');
  const source = await sourceOf(given, io);
  if (!source.ok) return fail(io, source.problems);
  if (source.names.some((name) => path.resolve(name) === path.resolve(out)))
    throw new WrongUse(`--out ${out} is one of the files to be cut: name another.`);
  const request = { area: source.area, ...optionsOf(given) };
  const { files, problems } = await openFiles(io, source.names);
  if (problems.length > 0) return fail(io, problems);
  const cut = cutForecast(files, request);
  if (!cut.ok) return fail(io, cut.problems);
  const unwritten = await replaceFile(out, cut.value.bytes);
  if (unwritten.length > 0) return fail(io, unwritten);
  const { summary } = cut.value;
  reportProblems(io, summary.problems);
  io.out(given.flags.has('json') ? `${JSON.stringify(published(out, summary))}\n` : textOf(out, summary));
  return 0;
}

function fail(io: CommandIo, problems: readonly Problem[]): number {
  reportProblems(io, problems);
  return 1;
}

type Source =
  | { readonly ok: true; readonly area: CutArea; readonly names: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The area, and the files: those given, or those the passage names, which lie beside it. */
async function sourceOf(given: TakenApart, io: CommandIo): Promise<Source> {
  const [passageFile, box] = [given.texts.get('passage'), given.texts.get('box')];
  if ((passageFile === undefined) === (box === undefined))
    throw new WrongUse('one of --passage and --box is needed, and not both.');
  if (passageFile === undefined) {
    if (given.texts.has('margin-nm')) throw new WrongUse('--margin-nm goes with --passage; a box is kept as it is.');
    if (given.files.length === 0) throw new WrongUse('no FILE is given.');
    return { ok: true, area: { kind: 'box', box: boxOf(box ?? '') }, names: given.files };
  }
  const marginNm = numberOption(given, 'margin-nm', { least: 0, most: MOST_MARGIN_NM }) ?? DEFAULT_MARGIN_NM;
  const passage = await readPassageFile(passageFile, io);
  if (!passage.ok) return passage;
  const { track, forecasts } = passage.value;
  const folder = path.dirname(passageFile);
  const names = given.files.length > 0 ? given.files : forecasts.map((name) => path.resolve(folder, name));
  if (names.length === 0) throw new WrongUse('no FILE is given, and the passage names no forecast.');
  return { ok: true, area: { kind: 'corridor', places: placesOf(track), marginNm }, names };
}

function placesOf(track: Track) {
  const measured = measureTrack(track);
  const stepCount = Math.ceil(measured.lengthNm / PLACE_STEP_NM);
  return Array.from(
    { length: stepCount + 1 },
    (_, i) => positionAtNm(measured, Math.min(measured.lengthNm, i * PLACE_STEP_NM)).position,
  );
}

function boxOf(text: string): Box {
  const edges = text.split(',').map((edge) => (edge.trim() === '' ? Number.NaN : Number(edge)));
  const [south, west, north, east] = edges;
  const isBox = edges.length === 4 && edges.every(Number.isFinite);
  if (!isBox || south === undefined || west === undefined || north === undefined || east === undefined)
    throw new WrongUse(`--box ${text}: expected south,west,north,east in signed degrees, such as -40,170,-30,-150.`);
  return { southWest: { lat: south, lon: west }, northEast: { lat: north, lon: east } };
}

function optionsOf(given: TakenApart): Omit<CutRequest, 'area'> {
  const [fromEpochMs, toEpochMs] = [instantOption(given, 'from'), instantOption(given, 'to')];
  const everyH = numberOption(given, 'every-h', { least: 1, most: 12 });
  const everyPointCount = wholeOption(given, 'every-point');
  const quantities = given.texts.get('quantities');
  return {
    ...(fromEpochMs === null ? {} : { fromEpochMs }),
    ...(toEpochMs === null ? {} : { toEpochMs }),
    ...(everyH === null ? {} : { everyH }),
    ...(everyPointCount === null ? {} : { everyPointCount }),
    ...(quantities === undefined ? {} : { quantities: quantities.split(',').map((name) => name.trim()) }),
    members: membersOf(given),
    precision: precisionOf(given),
    resample: given.flags.has('resample'),
    layout: given.flags.has('separate') ? 'separate' : 'shared',
  };
}

function membersOf(given: TakenApart): CutMembers {
  const everyCount = wholeOption(given, 'every-member');
  if (given.flags.has('control-only') && everyCount !== null)
    throw new WrongUse('--every-member and --control-only exclude each other.');
  if (given.flags.has('control-only')) return 'control';
  return everyCount === null ? 'all' : { everyCount };
}

function wholeOption(given: TakenApart, name: string): number | null {
  const count = numberOption(given, name, { least: 1, most: 1000 });
  if (count !== null && !Number.isInteger(count)) throw new WrongUse(`--${name} ${count}: expected a whole number.`);
  return count;
}

function precisionOf(given: TakenApart): CutPrecision {
  const text = given.texts.get('precision') ?? 'fine';
  if (text === 'fine' || text === 'coarse') return text;
  throw new WrongUse(`--precision ${text}: expected fine or coarse.`);
}

function published(out: string, { kept, ...summary }: CutSummary) {
  return {
    out,
    ...summary,
    kept: kept.map(({ firstEpochMs, endEpochMs, ...quantity }) => ({
      ...quantity,
      firstUtc: formatUtc(firstEpochMs),
      endUtc: formatUtc(endEpochMs),
    })),
  };
}

function textOf(out: string, summary: CutSummary): string {
  const { beforeOctets, afterOctets, beforeFieldCount, afterFieldCount, kept, leftOut, notes } = summary;
  const lines = [
    `${out}: ${afterOctets} octets of ${beforeOctets}, 1 in ${(beforeOctets / afterOctets).toFixed(1)}`,
    `fields: ${afterFieldCount} of ${beforeFieldCount} that a plan would use`,
    ...kept.map(lineOf),
    ...leftOut,
    ...notes,
  ];
  return `${lines.join('\n')}\n`;
}

function lineOf(of: KeptQuantity): string {
  const { value, unit } = of.greatestError;
  const runs = [...(of.hasControl ? ['control'] : []), ...(of.memberCount > 0 ? [`${of.memberCount} members`] : [])];
  const span = `${formatUtc(of.firstEpochMs)} to ${formatUtc(of.endEpochMs)}`;
  const each = quantityOf(of.quantity).shape === 'pair' && of.quantity !== 'waveDirection' ? ' in each component' : '';
  return `  ${quantityOf(of.quantity).name}: ${span}; ${runs.join(', ')}; within ${shortNumber(value)} ${unit}${each}`;
}

/** Two figures that count. */
const shortNumber = (value: number): string => String(Number(value.toPrecision(2)));
