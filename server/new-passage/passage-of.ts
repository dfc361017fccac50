import { usualSpeedTable, parseSpeedTableCsv, WATERLINE_RANGE } from '../../lib/boat/index.ts';
import { CHAINS } from '../../lib/jobs/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Problem, Result } from '../../lib/result/index.ts';
import { formatAt, formatUtc } from '../../lib/time/index.ts';
import { parseGpx, type Waypoint } from '../../lib/track/index.ts';
import type { ForecastHours } from '../forecast-hours.ts';
import { chainAsEntries, libraryAsEntry, withAdded } from '../job-forms/index.ts';
import type { Form } from '../routes/form.ts';
import { storedName } from '../stores/passage-files.ts';
import { clockProblem, departureOf } from './departure.ts';
import type { PlacedProblem } from './placed-problem.ts';
import { readTrackLines, trackLines } from './track-lines.ts';
import { usualNights } from './usual-nights.ts';

/** Everything a form of a new passage sent, and what is known besides. */
export interface Entered {
  readonly form: Pick<Form, 'text' | 'all'>;
  /** null: no GPX file was chosen. */
  readonly gpx: { readonly fileName: string; readonly text: string } | null;
  /** Hashes of the forecasts to plan with, all of the store. */
  readonly forecasts: readonly string[];
  readonly hours: ForecastHours | null;
  readonly nowEpochMs: number;
}

export interface EnteredPassage {
  /** Makes sense only where there are no problems. */
  readonly file: PassageFile;
  readonly problems: readonly PlacedProblem[];
  /** The track as lines, where one could be read, so that it is not lost with the choice of a file. */
  readonly trackText: string | null;
}

/** The passage a form makes, with every problem of it; ranges and references are checked afterwards. */
export function passageOf(entered: Entered): EnteredPassage {
  const { form, forecasts, hours, nowEpochMs } = entered;
  const found = new Found();
  const waypoints = found.take(entered.gpx === null ? 'track' : 'gpx', trackOf(entered), []);
  const [first = { lat: 0, lon: 0 }] = waypoints;
  // As `fillSettings` has it: the whole hour nearest to the longitude of the start.
  const shipTimeOffsetMin = Math.round(first.lon / 15) * 60;
  const clock = form.text('zone') === 'utc' ? 'utc' : 'ship';
  const asked = { text: form.text('departure'), clock, shipTimeOffsetMin, hours, nowEpochMs } as const;
  const departureEpochMs = found.take('departure', departureOf(asked), nowEpochMs);
  const isHeld = form.text('clock') === 'held';
  const over = isHeld ? null : clockProblem(hours, nowEpochMs);
  if (over !== null) found.add('clock', over);
  const watchkeeper = watchkeeperOf(form, { departureEpochMs, shipTimeOffsetMin }, found);
  const boat = boatOf(form, found);
  const timeUtc = formatUtc(departureEpochMs);
  const plain: PassageFile = {
    slatch: 1,
    name: form.text('name').trim() || `Passage of ${formatAt(departureEpochMs, shipTimeOffsetMin, 'd LLLL yyyy')}`,
    clock: isHeld ? { fixedUtc: timeUtc } : 'live',
    start: { timeUtc, lat: first.lat, lon: first.lon, sailState: form.text('sailState') || 'full-main' },
    track: waypoints.map(({ lat, lon, name, leg }) => ({ lat, lon, leg, ...(name === null ? {} : { name }) })),
    boat,
    ...(Object.keys(watchkeeper).length === 0 ? {} : { watchkeeper }),
    jobs: [],
    forecasts: forecasts.map(storedName),
  };
  const trackText = waypoints.length === 0 ? null : trackLines(waypoints);
  return { file: withJobs(plain, form, found), problems: found.problems, trackText };
}

/** Problems as they are found, each with its input. */
class Found {
  readonly problems: PlacedProblem[] = [];

  add(input: string, problem: Problem): void {
    this.problems.push({ input, problem });
  }

  /** The value, or `instead` where there is none. */
  take<T>(input: string, result: Result<T>, instead: T): T {
    if (result.ok) return result.value;
    for (const problem of result.problems) this.add(input, problem);
    return instead;
  }

  /** A number within its range; null: the text is empty, or none. */
  figure(form: Entered['form'], input: string, range: FigureRange): number | null {
    const text = form.text(input).trim();
    if (text === '') return null;
    const value = Number(text.replace(',', '.'));
    if (Number.isFinite(value) && value >= range.least && value <= range.most) return value;
    this.add(input, notInRange(text, input, range));
    return null;
  }
}

interface FigureRange {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
}

const notInRange = (text: string, where: string, { least, most, unit }: FigureRange): Problem => ({
  code: 'new.figure',
  where,
  what: `"${text}" cannot be used here.`,
  expected: `a number from ${least} to ${most} ${unit}`,
  remedy: 'Correct it, or leave it empty for the default.',
});

function trackOf({ form, gpx }: Entered): Result<readonly Waypoint[]> {
  if (gpx === null) return readTrackLines(form.text('track'), 'track');
  const track = parseGpx(gpx.text, gpx.fileName);
  // Read again as lines: counted, and to the same digits, whichever way it came.
  return track.ok ? readTrackLines(trackLines(track.value.waypoints), gpx.fileName) : track;
}

function boatOf(form: Entered['form'], found: Found): PassageFile['boat'] {
  const { leastM, mostM, usualM } = WATERLINE_RANGE;
  const waterlineM = found.figure(form, 'waterlineM', { least: leastM, most: mostM, unit: 'm' }) ?? usualM;
  const csv = form.text('speeds').trim();
  const usual = usualSpeedTable(waterlineM);
  const rows = csv === '' ? usual : found.take('speeds', parseSpeedTableCsv(csv, 'speed table'), usual);
  const instrumentHeightM = found.figure(form, 'instrumentHeightM', { least: 0.5, most: 60, unit: 'm' });
  const name = form.text('boatName').trim();
  return {
    ...(name === '' ? {} : { name }),
    ...(instrumentHeightM === null ? {} : { instrumentHeightM }),
    speedTables: { 'full-main': [...rows] },
  };
}

const NIGHTS = ['night1H', 'night2H', 'night3H'] as const;
const DEFAULT_NIGHT_H = 6;

function watchkeeperOf(
  form: Entered['form'],
  at: { readonly departureEpochMs: number; readonly shipTimeOffsetMin: number },
  found: Found,
): NonNullable<PassageFile['watchkeeper']> {
  const hours = { least: 0, most: 16, unit: 'h' };
  const wantedSleepHPer24H = found.figure(form, 'wantedSleepH', hours);
  const nights = NIGHTS.map((input) => found.figure(form, input, hours));
  const bedtime = form.text('usualSleepLocal').trim();
  const usualSleepLocal = /^\d:\d\d$/.test(bedtime) ? `0${bedtime}` : bedtime;
  const bedtimeLocal = /^([01]\d|2[0-3]):[0-5]\d$/.test(usualSleepLocal) ? usualSleepLocal : '22:00';
  const nightsH = nights.map((nightH) => nightH ?? wantedSleepHPer24H ?? DEFAULT_NIGHT_H);
  const isSaid = nights.some((nightH) => nightH !== null);
  if (nightsH.every((nightH) => nightH === 0)) found.add('night1H', noSleep);
  return {
    ...(isSaid ? { sleeps: usualNights({ ...at, bedtimeLocal, nightsH }) } : {}),
    ...(wantedSleepHPer24H === null ? {} : { wantedSleepHPer24H }),
    ...(usualSleepLocal === '' ? {} : { usualSleepLocal }),
  };
}

const noSleep: Problem = {
  code: 'new.no-sleep',
  where: 'night1H',
  what: 'Three nights without any sleep leave nothing to reckon alertness from.',
  expected: 'hours in the bunk, above 0 in at least one of the three nights',
  remedy: 'Put naps by day to the night before them; sleep first if there was none.',
};

/** Links of a chain that are ticked; all of them where the form does not say. */
function linksWanted(chainId: string, form: Entered['form']): readonly string[] {
  const ticked = form.all(linksInput(chainId));
  if (ticked.length > 0) return ticked.filter((id) => id !== '');
  return CHAINS.find((chain) => chain.id === chainId)?.links.map((link) => link.id) ?? [];
}

/** Name of the inputs for the jobs of a chain that can be left out. */
export const linksInput = (chainId: string): string => `links-${chainId}`;

/** With the chains that are ticked, and the library jobs that none of them holds already. */
function withJobs(plain: PassageFile, form: Entered['form'], found: Found): PassageFile {
  let file = plain;
  const ticked = (name: string): readonly string[] => [...new Set(form.all(name))].filter((id) => id !== '');
  for (const id of ticked('chains')) {
    file = withAdded(file, found.take('chains', chainAsEntries(id, linksWanted(id, form), file), []));
  }
  const inChains = (file.jobs ?? []).map(({ from }) => from);
  for (const id of ticked('jobs').filter((one) => !inChains.includes(one))) {
    const entry = libraryAsEntry(id, file);
    if (entry.ok) file = withAdded(file, [entry.value]);
    else found.take('jobs', entry, null);
  }
  return file;
}
