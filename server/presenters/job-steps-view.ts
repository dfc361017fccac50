import {
  COMMON_PRACTICE,
  type Job,
  OUR_DEFAULT,
  OWN_FIGURE,
  provenanceOf,
  type Step,
  waitP80H,
} from '../../lib/jobs/index.ts';
import { STITCH_RATES } from '../../lib/stock/index.ts';
import {
  limitLines,
  minutesText,
  needText,
  plainFigure,
  rateText,
  sessionText,
  waitAirText,
  waitText,
} from './job-figures.ts';
import { provenanceText } from './job-sources.ts';
import { sentenceIn } from './units/sentence.ts';
import type { ShownUnits } from './units/shown-units.ts';
import { effortWords, handsWords, lookoutWords, placeWords, stopWords } from './job-words.ts';

/** A step to be read. */
export interface StepView {
  readonly id: string;
  readonly title: string;
  readonly isDone: boolean;
  readonly minutes: Marked;
  /** Where, stopping, look-out, effort, hands. */
  readonly how: readonly string[];
  readonly limits: readonly Marked[];
  readonly byEye: readonly string[];
  /** Rate, session, materials, tether, sail set afterwards. */
  readonly facts: readonly StepFact[];
  readonly instructions: readonly string[];
  /** Wait after it, with the hours counted; null: none. */
  readonly wait: Marked | null;
  readonly isSafePoint: boolean;
}

export interface StepFact {
  readonly term: string;
  readonly text: Marked;
}

/** A figure with whose it is. */
export interface Marked {
  readonly text: string;
  /** `default`, `own`; empty: the library's, by practice or a source. */
  readonly mark: 'default' | 'own' | '';
  /** In words; empty: nothing is to be said. */
  readonly source: string;
}

export function stepViews(
  job: Job,
  { doneStepIds, isOwnSeam }: { doneStepIds: readonly string[]; isOwnSeam: (stepId: string) => boolean },
  sailState: (id: string) => string,
  units: ShownUnits,
): readonly StepView[] {
  return job.steps.map((step, index) => {
    const marked = (text: string, key: string): Marked => markedFigure(job, step, key, text);
    return {
      id: step.id,
      title: `${index + 1}. ${step.name}`,
      isDone: doneStepIds.includes(step.id),
      minutes: isOwnSeam(step.id) ? seamMinutes(job, step) : marked(minutesText(step.work), 'work'),
      how: [
        placeWords[step.place],
        stopWords[step.stop],
        lookoutWords[step.lookout],
        effortWords[step.effort],
        `hands ${handsWords[step.hands]}`,
        `${plainFigure(step.darkFactorRatio)} times as long in the dark`,
      ],
      limits: limitLines(step.limits, units).map(({ key, text }) => marked(text, key)),
      byEye: step.limits.byEye.map((look) => sentenceIn(look, units)),
      facts: stepFacts(step, marked, sailState),
      instructions: step.instructions.map((line) => sentenceIn(line, units)),
      wait: waitView(step, (text, key) => marked(sentenceIn(text, units), key)),
      isSafePoint: step.safePointAfter || step.waitAfter !== null,
    };
  });
}

/** What the minutes of a seam of the user's own are worked out from. */
function seamMinutes({ seam }: Job, { work }: Step): Marked {
  const rate = STITCH_RATES.find(({ cloth }) => cloth === seam?.cloth);
  const speeds = [rate?.slowMPerH ?? 0, rate?.likelyMPerH ?? 0, rate?.fastMPerH ?? 0].map(plainFigure).join(' / ');
  return {
    text: minutesText(work),
    mark: '',
    source: `worked out from the seam: ${speeds} m an hour of one row, ${rate?.provenance ?? COMMON_PRACTICE}`,
  };
}

type Mark = (text: string, key: string) => Marked;

function stepFacts(step: Step, marked: Mark, sailState: (id: string) => string): readonly StepFact[] {
  const { rate, session, materials, clipTo, sailStateAfter } = step;
  return [
    ...(rate === null ? [] : [{ term: 'Goes by', text: marked(rateText(rate), 'work') }]),
    ...(session === null ? [] : [{ term: 'Sessions', text: marked(sessionText(session), 'session') }]),
    ...(materials.length === 0
      ? []
      : [{ term: 'Takes', text: marked(materials.map(needText).join(', '), 'materials') }]),
    ...(clipTo === null ? [] : [{ term: 'Tether', text: marked(clipTo, 'clipTo') }]),
    ...(sailStateAfter === null
      ? []
      : [{ term: 'Sail set then', text: { text: sailState(sailStateAfter), mark: '', source: '' } as const }]),
  ];
}

function waitView({ waitAfter }: Step, marked: Mark): Marked | null {
  if (waitAfter === null) return null;
  const air = waitAirText(waitAfter);
  const counted = `counted as ${plainFigure(Math.round(waitP80H(waitAfter) * 10) / 10)} h, which four of five such waits stay within`;
  return marked(`Then it ${waitText(waitAfter)}, ${counted}${air === '' ? '' : `; ${air}`}.`, 'waitAfter');
}

function markedFigure(job: Job, step: Step, key: string, text: string): Marked {
  const provenance = provenanceOf(job, step.id, key) ?? OWN_FIGURE;
  // Of a job of the user's own everything is.
  if (provenance === OWN_FIGURE) return { text, mark: job.from === null ? '' : 'own', source: '' };
  if (provenance === OUR_DEFAULT) return { text, mark: 'default', source: '' };
  return { text, mark: '', source: provenance === COMMON_PRACTICE ? '' : provenanceText(provenance) };
}
