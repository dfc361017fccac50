import type { CheckedEntry, OwnPlanCheck, OwnPlanFigures } from '../planner/index.ts';
import type { Wording } from '../reasons/index.ts';
import { findingText, ofHundred, ruleWords } from '../reasons/index.ts';
import { formatAt } from '../time/index.ts';
import { spreadText } from './export/job-words.ts';

/**
 * A plan made by hand, judged, for a terminal: every entry with all that speaks against it, the jobs, the figures, and
 * those of another plan beside them. Times are ship's time.
 */
export function ownPlanText(checked: OwnPlanCheck, of: { wording: Wording; beside: OwnPlanCheck | null }): string {
  const { wording, beside } = of;
  return [
    headline(checked),
    '',
    'Work (ship’s time)',
    ...checked.entries.flatMap((entry) => entryLines(entry, wording)),
    ...(checked.sleepFindings.length === 0 ? [] : ['', 'Sleep']),
    ...checked.sleepFindings.map((finding) => `  - ${findingText(finding, wording)}`),
    '',
    'Jobs',
    ...checked.jobs.map((job) => `  ${jobText(job, wording)}`),
    '',
    ...figureLines('This plan', checked, wording),
    ...(beside === null ? [] : figureLines('The other plan', beside, wording)),
    '',
    'Cautions',
    ...CAUTIONS.map((caution) => `  - ${caution}`),
  ].join('\n');
}

const CAUTIONS = [
  'Advice, not permission: the skipper looks, and decides.',
  'A no-go is not planned through; to override one is the skipper’s own act, and is logged.',
  'No sleep plan of a lone sailor satisfies COLREG Rule 5 (look-out): set radar and AIS alarms before every sleep.',
] as const;

function headline({ violationCount, entries, sleepFindings }: OwnPlanCheck): string {
  if (entries.length === 0) return 'The plan holds no work.';
  const of = entries.length + sleepFindings.length;
  return violationCount === 0
    ? 'No rule speaks against this plan.'
    : `Something speaks against ${violationCount} of ${of} ${of === 1 ? 'entry' : 'entries'}.`;
}

function entryLines(entry: CheckedEntry, wording: Wording): string[] {
  const [from, to] = [entry.startEpochMs, entry.endEpochMs].map((epochMs) => clock(epochMs, wording));
  const handling = entry.handlingId === null ? '' : `, ${wording.nameOf(entry.handlingId)}`;
  const weather = entry.probability === null ? '' : `, inside its limits in ${ofHundred(entry.probability)}`;
  const unknown =
    entry.unknownLimits.length === 0 ? '' : `, conditional on ${entry.unknownLimits.map(ruleWords).join(', ')}`;
  return [
    `  ${day(entry.startEpochMs, wording)} ${from} – ${to}  ${wording.nameOf(entry.jobId)}${handling}${weather}${unknown}, sleepiness ${entry.kssStart.toFixed(1)}`,
    ...entry.findings.map((finding) => `      - ${findingText(finding, wording)}`),
  ];
}

const day = (epochMs: number, wording: Wording): string => formatAt(epochMs, wording.shipTimeOffsetMin, 'ccc d LLL');
const clock = (epochMs: number | null, wording: Wording): string =>
  epochMs === null ? '?' : formatAt(epochMs, wording.shipTimeOffsetMin, 'HH:mm');

function jobText(job: OwnPlanCheck['jobs'][number], wording: Wording): string {
  const name = wording.nameOf(job.jobId);
  if (job.probability === null) return `${name}: not in the plan`;
  const state = job.isFinished ? 'finished' : 'not finished';
  const conditional = job.isConditional ? ', conditional: it does not count in what the plan promises' : '';
  return `${name}: ${state}, inside its limits in ${ofHundred(job.probability)}${conditional}`;
}

function figureLines(title: string, of: OwnPlanFigures, wording: Wording): string[] {
  const sd = spreadText(of.allDoneProbabilitySd);
  const joint =
    of.allDoneProbability === null
      ? 'no work on limits that are all known'
      : `all of it inside its limits together in ${ofHundred(of.allDoneProbability)}${sd}`;
  const jobs = of.finishedJobIds.length === 1 ? '1 job' : `${of.finishedJobIds.length} jobs`;
  const until = `${day(of.endEpochMs, wording)} ${clock(of.endEpochMs, wording)}`;
  return [
    `${title}: ${jobs} finished by ${until}; ${joint}.`,
    `  On deck ${of.deckH.toFixed(1)} h; ${of.lostNm.toFixed(1)} nm lost; ${of.sleepH.toFixed(1)} h of sleep till then; something speaks against ${of.violationCount} of its entries.`,
  ];
}
