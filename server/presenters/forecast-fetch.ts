import { quantityOf } from '../../lib/forecast/index.ts';
import type { Problem, Result } from '../../lib/result/index.ts';
import type { FetchedForecast, FetchEstimate, FetchProgress } from '../fetchers/index.ts';
import type { FetchAsked, FetchStanding } from '../keep-forecasts.ts';
import { storedName } from '../stores/passage-files.ts';
import { sizeText } from '../../lib/units/index.ts';
import type { FetchField } from './fetch-fields.ts';
import { durationText, type TimeTexts } from './time-texts.ts';

/** A fetch that goes on or has ended. */
export interface FetchView {
  readonly title: string;
  readonly lines: readonly string[];
  /** 0 to 1; null: not known. */
  readonly share: number | null;
  readonly isGoingOn: boolean;
  readonly attribution: string;
  readonly problems: readonly Problem[];
  /** What has come can be planned with; null: nothing has. */
  readonly use: { readonly reference: string } | null;
}

export interface FetchForm {
  readonly asked: FetchAsked;
  readonly sources: readonly SourceOption[];
  readonly fields: readonly FetchField[];
  readonly estimate: readonly string[];
  readonly problems: readonly Problem[];
}

export interface SourceOption {
  readonly id: string;
  readonly text: string;
  /** Terms and attribution, under the list. */
  readonly about: string;
}

export const NOTHING_ASKED: FetchAsked = {
  sourceId: '',
  address: '',
  cycle: 'latest',
  steps: '',
  quantities: '',
  members: '',
  mostKbPerS: '',
};

/** How much a fetch would be, and how long it would take. */
export function estimateText({ fileCount, allOctets, isGuess }: FetchEstimate): string {
  const files = fileCount === 1 ? 'one file' : `${fileCount} files`;
  if (allOctets === null) return `It is ${files}; the source does not say how large.`;
  const slow = durationText(Math.max(1, allOctets / SATELLITE_OCTETS_PER_S / 60));
  return (
    `It is ${isGuess ? 'about ' : ''}${sizeText(allOctets)} in ${files}: ${slow} over a satellite line of 2400 bits a second, ` +
    `${durationText(Math.max(1, allOctets / SLOW_OCTETS_PER_S / 60))} at 50 kB a second.`
  );
}

const SATELLITE_OCTETS_PER_S = 300;
const SLOW_OCTETS_PER_S = 50_000;

export function fetchView({ name, attribution, progress, result }: FetchStanding, times: TimeTexts): FetchView {
  const share =
    progress.allOctets === null || progress.allOctets === 0 ? null : progress.gotOctets / progress.allOctets;
  return {
    title: result === null ? `Getting ${name}` : result.ok ? `${name} is here` : `${name} did not come`,
    lines: result === null ? progressLines(progress, times) : fetchResultLines(result),
    share: result === null && share !== null ? Math.min(1, share) : null,
    isGoingOn: result === null,
    attribution,
    problems: result === null || result.ok ? [] : result.problems,
    use: result?.ok === true ? { reference: storedName(result.value.hash) } : null,
  };
}

function progressLines(progress: FetchProgress, times: TimeTexts): string[] {
  const { gotOctets, allOctets, isAllEstimated, octetsPerS, leftS } = progress;
  const all = allOctets === null ? '' : ` of ${isAllEstimated ? 'about ' : ''}${sizeText(allOctets)}`;
  const rate = octetsPerS === null ? '' : `, ${sizeText(Math.round(octetsPerS))} a second`;
  const left = leftS === null ? '' : `, ${durationText(Math.max(1, leftS / 60))} left`;
  const waiting =
    progress.waitUntilEpochMs === null
      ? []
      : [`It waits until ${times.time(progress.waitUntilEpochMs)}: ${progress.waitReason ?? 'the line broke'}`];
  return [
    `File ${progress.fileNumber} of ${progress.fileCount}: ${sizeText(gotOctets)}${all}${rate}${left}.`,
    ...waiting,
  ];
}

/** What has come, in sentences; nothing where nothing has. */
function fetchResultLines(result: Result<FetchedForecast>): string[] {
  if (!result.ok) return ['What had come is kept, and the next try goes on from there.'];
  const { sizeOctets, fieldCount, quantities, missing, isNew } = result.value;
  return [
    `${sizeText(sizeOctets)}, ${fieldCount} fields: ${quantities.map((id) => quantityOf(id).name).join(', ')}.`,
    ...(isNew ? [] : ['The very same file was here already.']),
    ...(missing.length === 0 ? [] : [`The source does not list ${missing.join('; ')}.`]),
  ];
}
