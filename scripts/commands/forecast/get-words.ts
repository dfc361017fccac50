import { quantityOf } from '../../../lib/forecast/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import {
  BUILT_IN_SOURCES,
  type FetchedForecast,
  type FetchEstimate,
  type FetchProgress,
  type ForecastSource,
} from '../../../server/fetchers/index.ts';
import { sizeText } from '../../../lib/units/index.ts';

/** `40 s`, `12 min`, `3 h 20 min`, `5 days`. */
export function durationText(seconds: number): string {
  if (seconds < 90) return `${Math.max(1, Math.round(seconds))} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 120) return `${minutes} min`;
  if (minutes >= 48 * 60) return `${Math.round(minutes / 1440)} days`;
  return `${Math.floor(minutes / 60)} h${minutes % 60 === 0 ? '' : ` ${minutes % 60} min`}`;
}

/** Lines of which times are told where no cap is given [octets/s]: 2.4 kbit/s, 128 kbit/s and 2 Mbit/s. */
const USUAL_LINES: readonly (readonly [name: string, octetsPerS: number])[] = [
  ['2.4 kbit/s', 300],
  ['128 kbit/s', 16_000],
  ['2 Mbit/s', 250_000],
];

export function estimateText(estimate: FetchEstimate, capOctetsPerS: number | null): string {
  const files = estimate.fileCount === 1 ? '1 file' : `${estimate.fileCount} files`;
  if (estimate.allOctets === null) return `${files}; the source does not say how large.\n`;
  const { allOctets } = estimate;
  const lines = capOctetsPerS === null ? USUAL_LINES : [[`${sizeText(capOctetsPerS)}/s`, capOctetsPerS] as const];
  const times = lines.map(([name, octetsPerS]) => `${durationText(allOctets / octetsPerS)} at ${name}`);
  return `${files}, ${estimate.isGuess ? 'about ' : ''}${sizeText(allOctets)}: ${times.join(', ')}.\n`;
}

export function progressText(progress: FetchProgress, nowEpochMs: number): string {
  const { phase, fileNumber, fileCount, gotOctets, allOctets, octetsPerS, leftS } = progress;
  const of = allOctets === null ? '' : ` of ${progress.isAllEstimated ? 'about ' : ''}${sizeText(allOctets)}`;
  const file = fileCount === 1 ? '' : `file ${fileNumber} of ${fileCount}, `;
  if (phase === 'waiting') {
    const leftToWaitS = Math.max(0, (progress.waitUntilEpochMs ?? nowEpochMs) - nowEpochMs) / 1000;
    return `${file}${sizeText(gotOctets)}${of}; ${progress.waitReason ?? ''} Again in ${durationText(leftToWaitS)}.\n`;
  }
  const rate = octetsPerS === null ? '' : `, ${sizeText(octetsPerS)}/s`;
  const left = leftS === null ? '' : `, ${durationText(leftS)} left`;
  return `${phase}: ${file}${sizeText(gotOctets)}${of}${rate}${left}\n`;
}

/** What was fetched, where it is, and whose it is. */
export function fetchedText(
  fetched: FetchedForecast,
  { fileName, place, source }: { fileName: string; place: string; source: ForecastSource | null },
): string {
  const names = fetched.quantities.map((id) => quantityOf(id).name).join(', ');
  return [
    `${fileName}: ${sizeText(fetched.sizeOctets)}, ${fetched.fieldCount} fields: ${names}.`,
    fetched.isNew ? place : `${place} It was there before; nothing was added.`,
    ...(fetched.missing.length === 0 ? [] : [`Not listed by the source: ${fetched.missing.join('; ')}.`]),
    ...(source === null ? [] : [source.attribution, `Licence: ${source.licence}.`]),
    '',
  ].join('\n');
}

/** The sources that come with Slatch, for people. */
export function templatesText(): string {
  return BUILT_IN_SOURCES.map((source) =>
    [
      `${source.id}: ${source.name}`,
      `  runs at ${source.cyclesH.map((hour) => String(hour).padStart(2, '0')).join(', ')} UTC, published about ${durationText(source.delayMin * 60)} later; steps ${stepsText(source)}`,
      `  ${Object.keys(source.quantities).join(',')}${source.members === undefined ? '' : `; members ${membersText(source.members)}`}`,
      `  ${source.provider}`,
      `  ${source.licence}`,
      `  ${source.attribution}`,
      `  ${source.url}`,
      `  not tried against the live server; ${source.evidence ?? 'no evidence given'}`,
      '',
    ].join('\n'),
  ).join('\n');
}

const stepsText = ({ steps }: ForecastSource): string =>
  steps
    .map(({ fromH, toH, everyH, cyclesH }) => {
      const runs = cyclesH === undefined ? '' : ` (runs of ${cyclesH.join(' and ')} UTC)`;
      return `${fromH}-${toH}/${everyH}${runs}`;
    })
    .join(', ');

const membersText = ({ control, count }: NonNullable<ForecastSource['members']>): string =>
  `${control === null ? 1 : 0}-${count}`;

/** The cycle of what is to be fetched; null for addresses of the user. */
export const cycleText = (cycleEpochMs: number | null): string | null =>
  cycleEpochMs === null ? null : formatUtc(cycleEpochMs);
