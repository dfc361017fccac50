/** Sentences about one job that calendar, track and bill share. */
import { limitWords, type Plan, type PlanEntry, type PlannedJob } from '../../planner/index.ts';
import { ofHundred } from '../../reasons/index.ts';
import { formatAt } from '../../time/index.ts';
import type { ExportNames } from './export-names.ts';

/** `Thu 28 May 14:00` on the ship's clock. */
export const shipTime = (utc: string, { shipTimeOffsetMin }: ExportNames): string =>
  formatAt(Date.parse(utc), shipTimeOffsetMin, 'ccc d LLL HH:mm');

/** `Thu 28 May 14:00 ship’s time (Thu 02:00 UTC)` */
export const onBothClocks = (utc: string, names: ExportNames): string =>
  `${shipTime(utc, names)} ship’s time (${formatAt(Date.parse(utc), 0, 'ccc HH:mm')} UTC)`;

/** `UTC+12`, `UTC-3:30`, `UTC` */
export function clockName({ shipTimeOffsetMin }: ExportNames): string {
  if (shipTimeOffsetMin === 0) return 'UTC';
  const minutes = Math.abs(shipTimeOffsetMin);
  const rest = minutes % 60 === 0 ? '' : `:${String(minutes % 60).padStart(2, '0')}`;
  return `UTC${shipTimeOffsetMin < 0 ? '-' : '+'}${Math.floor(minutes / 60)}${rest}`;
}

/** `Plan 3`, or `Plan` where it is kept under no number. */
export const planTitle = ({ planNumber }: Pick<Plan, 'planNumber'>): string =>
  planNumber === null ? 'Plan' : `Plan ${planNumber}`;

/** `run off before the wind` */
export const handlingText = (id: string, { handlings }: ExportNames): string => lowerFirst(handlings.get(id) ?? id);

/** `deep reef` */
export const sailText = (id: string, { sailStates }: ExportNames): string => lowerFirst(sailStates.get(id) ?? id);

/** `run off before the wind, deep reef, cockpit` */
const howText = ({ handling, sailState, place }: PlanEntry, names: ExportNames): string =>
  [handling === null ? null : handlingText(handling, names), sailText(sailState, names), place]
    .filter((part) => part !== null)
    .join(', ');

/** Names of the steps of an entry. */
export const stepNames = ({ jobId, stepIds }: PlanEntry, { steps }: ExportNames): string[] =>
  stepIds.map((id) => steps.get(jobId ?? '')?.get(id) ?? id);

/** `Run off before the wind, deep reef, cockpit; 13 kn over the deck (11 to 15).` */
export const howSentence = (entry: PlanEntry, names: ExportNames): string =>
  sentence([howText(entry, names), windText(entry)].filter((part) => part !== null).join('; '));

/** `13 kn over the deck (11 to 15)`; null: not known, or none asked. */
const windText = ({ deckWindKn: wind }: PlanEntry): string | null =>
  wind === null ? null : `${wind.p50.toFixed(0)} kn over the deck (${wind.p10.toFixed(0)} to ${wind.p90.toFixed(0)})`;

/** ` ± 4`, one standard error in 100, rounded up as on every page; empty: none, or not known. */
export const spreadText = (probabilitySd?: number | null): string =>
  probabilitySd === null || probabilitySd === undefined || probabilitySd === 0
    ? ''
    : ` ± ${Math.max(1, Math.ceil(probabilitySd * 100 - 1e-9))}`;

/** `Fair starts: … to …`; null: nothing is said of them. */
export const startsText = ({ startBetween }: PlannedJob, names: ExportNames): string | null =>
  startBetween === null
    ? null
    : `Fair starts: ${onBothClocks(startBetween.firstUtc, names)} to ${onBothClocks(startBetween.lastUtc, names)}.`;

/** How sure the job is to stay inside its limits, and what of them nobody knows. */
export function chanceLines({ probability, status, unknownLimits }: PlannedJob): string[] {
  const unknown = unknownLimits.map(limitWords).join(', ');
  return [
    ...(probability === null ? [] : [`Stays inside limits: ${ofHundred(probability)}.`]),
    ...(status === 'conditional' ? [`Conditional${unknown === '' ? '' : `, not in the forecast: ${unknown}`}.`] : []),
  ];
}

/** What is left when the job is not begun. */
export function ifNotText({ fallback, fallbackPlan }: PlannedJob, names: ExportNames): string {
  const again =
    fallback === null
      ? 'If not: no other fair start before the forecast ends; plan again with the next one.'
      : `If not: ${onBothClocks(fallback.startUtc, names)}, last start ${onBothClocks(fallback.lastStartUtc, names)}, ${handlingText(fallback.handling, names)}, ${ofHundred(fallback.probability)}.`;
  return fallbackPlan === null ? again : `${again} ${fallbackPlan.text}`;
}

/** What to beware of: outside always the tether, then what the job itself says. */
export function cautionLines(jobId: string, { place }: PlanEntry, { cautions }: ExportNames): string[] {
  const isOutside = place !== 'below' && place !== null;
  const tether = isOutside ? ['Clip on before leaving the cockpit, and stay clipped on.'] : [];
  return [...tether, ...(cautions.get(jobId) ?? [])];
}

/** A sentence: the first letter large, a full stop at the end. */
const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
