import { formatAt } from '../time/index.ts';
import { limitWords } from '../planner/index.ts';
import type { PublishedWindow, PublishedWindows } from './windows-json.ts';

/** Windows for a terminal, in ship's time: one block of lines per job. */
export function windowsText(found: PublishedWindows, settings: { shipTimeOffsetMin: number }): string {
  return found.jobs.flatMap((job) => [job.jobId, ...jobLines(job, settings), '']).join('\n');
}

function jobLines(job: PublishedWindows['jobs'][number], settings: { shipTimeOffsetMin: number }): string[] {
  const lines = job.windows.map(
    (window) => `  ${windowText(window, settings)}; ${surestText(window.surestStarts, settings)}`,
  );
  if (job.nearestMiss !== null) {
    const { shortBy, unit } = job.nearestMiss;
    const by =
      shortBy === null ? '' : `, ${limitWords(job.nearestMiss.bindingLimit ?? '')} short by ${shortBy} ${unit ?? ''}`;
    lines.push(
      `  no window for part ${job.nearestMiss.blockIndex + 1}; nearest ${windowText(job.nearestMiss, settings)}${by}`,
    );
  }
  return lines.length === 0 ? ['  no start possible before the forecast ends'] : lines;
}

function surestText(surest: PublishedWindow['surestStarts'], settings: { shipTimeOffsetMin: number }): string {
  return surest === null
    ? 'too short to hold if the weather is early or late'
    : `surest ${shipTime(surest.firstUtc, settings)} to ${shipTime(surest.lastUtc, settings)}`;
}

const shipTime = (utc: string, settings: { shipTimeOffsetMin: number }): string =>
  formatAt(Date.parse(utc), settings.shipTimeOffsetMin, 'ccc d LLL HH:mm');

function windowText(window: PublishedWindow, settings: { shipTimeOffsetMin: number }): string {
  const ship = (utc: string): string => shipTime(utc, settings);
  const room =
    window.marginSd === null
      ? ''
      : `, room ${window.marginSd.toFixed(1)} sd (${limitWords(window.bindingLimit ?? '')})`;
  const conditional = window.conditional
    ? `, conditional: ${window.unknownLimits.map(limitWords).join(', ')} unknown`
    : '';
  const times = `start ${ship(window.firstStartUtc)} to ${ship(window.lastStartUtc)}, best ${ship(window.bestStartUtc)}`;
  const inHundredCount = Math.round(window.probability * 100);
  return `${times}, ${window.handling}, ${inHundredCount} of 100${room}${conditional}`;
}
