import type { StartLook, WindowsPicture } from '../../lib/planner/index.ts';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import type { WindowsAnswer } from '../planning-messages.ts';
import { type Clock, clockOf } from './clock.ts';
import { handlingText } from './handling-text.ts';
import { limitText } from './amount-texts.ts';
import { levelsText } from './levels-text.ts';
import type { Fact } from './fact.ts';
import type { PassageView } from './plan-standing.ts';
import type { JobDocument } from './job-document.ts';
import { type JobMenu, partText, sailText, stepsText } from './shown-names.ts';
import { type StartCard, shipField, startCard } from './start-card.ts';
import type { StatePage } from './state-page.ts';
import type { StripModel } from './strip-model.ts';
import { epochOf, timeTexts } from './time-texts.ts';
import { viewIn } from './units/plan-texts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';
import type { ChosenWindows } from './windows-choice.ts';
import { lowerFirst } from './word-lines.ts';
import { type Sentence, windowsSentences } from './windows-sentences.ts';
import { windowsStrip } from './windows-strip.ts';
import { type WindowRow, windowRows } from './windows-table.ts';

export type WindowsPage =
  | StatePage
  | { readonly kind: 'no-jobs'; readonly name: string; readonly clock: Clock }
  | JobPage;

/** The windows of one job. */
export interface JobPage {
  readonly kind: 'windows';
  readonly name: string;
  readonly clock: Clock;
  readonly choice: Choice;
  readonly jobName: string;
  /** Part and handling shown. */
  readonly shown: string;
  /** The answer: when to start, or why there is no start. */
  readonly sentences: readonly Sentence[];
  readonly limits: readonly Fact[];
  /** null: nothing can be drawn, for the part is worked under no handling. */
  readonly hours: { readonly strip: StripModel; readonly pick: PickForm } | null;
  readonly look: StartCard | null;
  readonly rows: readonly WindowRow[];
  readonly hasParts: boolean;
}

/** Lists to choose from; a list of one is no choice. */
export interface Choice {
  readonly jobs: readonly Option[];
  readonly parts: readonly Option[];
  readonly handlings: readonly Option[];
}

export interface Option {
  readonly value: string;
  readonly text: string;
  readonly isChosen: boolean;
}

/** A start typed in ship's time; the other fields go with it. */
export interface PickForm {
  readonly hidden: readonly { readonly name: string; readonly value: string }[];
  readonly value: string;
  readonly least: string;
  readonly most: string;
  readonly stepS: number;
}

interface PageInput {
  /** The passage as it is kept now, where a start can be locked; null: it cannot be read. */
  readonly document?: JobDocument | null;
  readonly view: PassageView;
  readonly nowEpochMs: number;
  /** null: the passage has no jobs. */
  readonly chosen: ChosenWindows | null;
  /** null: the part is worked under no handling. */
  readonly answer: WindowsAnswer | null;
  readonly look: StartLook | null;
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
}

export function windowsPage(input: PageInput): WindowsPage {
  const { nowEpochMs, chosen, answer, look, document = null, units = PLAIN_UNITS } = input;
  const view = viewIn(input.view, units);
  const head = { name: view.plan.passageName, clock: clockOf(view.picture, nowEpochMs) };
  const menu = view.names.jobs.find(({ jobId }) => jobId === chosen?.jobId);
  if (chosen === null || menu === undefined) return { kind: 'no-jobs', ...head };
  const base = {
    kind: 'windows' as const,
    ...head,
    choice: choiceOf(view, menu, chosen),
    jobName: menu.name,
    hasParts: menu.parts.length > 1,
  };
  if (answer === null) return { ...base, ...nothingDrawn(menu, chosen) };
  const times = timeTexts(view.picture.shipTimeOffsetMin, units);
  const { picture, grid } = answer;
  const { windows } = answer.windows;
  const own = windows.filter(
    ({ blockIndex, handlingId }) => blockIndex === chosen.partIndex && handlingId === chosen.handlingId,
  );
  const shared = { view, menu, chosen, picture, windows, grid, times };
  return {
    ...base,
    shown: shownText(view, menu, picture),
    sentences: windowsSentences({ ...shared, own }),
    limits: limitFacts(picture, units),
    hours: {
      strip: windowsStrip({ ...shared, jobName: menu.name, windows: own, look }),
      pick: pickForm(view, chosen, look),
    },
    look:
      look === null
        ? null
        : startCard({
            ...shared,
            document,
            look,
            jobName: menu.name,
            wantedProbability: picture.wantedProbability,
            leastAlertnessPoints: picture.leastAlertnessPoints,
            slotMin: grid.slotMin,
          }),
    rows: windowRows(shared),
  };
}

const nothingDrawn = (
  menu: JobMenu,
  chosen: ChosenWindows,
): Omit<JobPage, 'kind' | 'name' | 'clock' | 'choice' | 'jobName' | 'hasParts'> => ({
  shown: partText(menu, chosen.partIndex),
  sentences: [
    {
      text: 'No handling of this job exists with the sail that is set then, so no start can be looked for. Add a handling to the job, or a job before it that changes the sail.',
    },
  ],
  limits: [],
  hours: null,
  look: null,
  rows: [],
});

function choiceOf(view: PassageView, menu: JobMenu, chosen: ChosenWindows): Choice {
  const part = menu.parts[chosen.partIndex];
  return {
    jobs: view.names.jobs.map(({ jobId, name }) => ({ value: jobId, text: name, isChosen: jobId === menu.jobId })),
    parts: menu.parts.map((each, i) => ({
      value: String(i + 1),
      text: `${i + 1}: ${stepsText(each)}`,
      isChosen: i === chosen.partIndex,
    })),
    handlings: (part?.handlingIds ?? []).map((id) => ({
      value: id,
      text: view.picture.handlingNames[id] ?? id,
      isChosen: id === chosen.handlingId,
    })),
  };
}

function shownText(view: PassageView, menu: JobMenu, { asked, sailStateId }: WindowsPicture): string {
  const part = partText(menu, asked.blockIndex);
  const how = `${handlingText(view.picture, asked.handlingId)}, ${lowerFirst(sailText(view.names, sailStateId))}`;
  const sessions =
    menu.parts[asked.blockIndex]?.inSessions === true
      ? '; can be stopped anywhere, shown for its least useful session'
      : '';
  return `${part === '' ? '' : `${part}; `}${how}${sessions}`;
}

function limitFacts({ limits }: WindowsPicture, units: ShownUnits): Fact[] {
  return [
    { term: 'Deck wind', ...levelsText(limits.deckWindKn, 'kn', units) },
    {
      term: 'Gust',
      ...(limits.deckGustNoGoKn === null
        ? { figure: 'no limit', rest: '' }
        : { figure: limitText(limits.deckGustNoGoKn, 'kn', units), rest: 'no-go' }),
    },
    { term: 'Sea', ...levelsText(limits.seaHeightM, 'm', units) },
    {
      term: 'Handling',
      figure: limitText(limits.trueWindNoGoKn, 'kn', units),
      rest: `true wind, sea ${limitText(limits.handlingSeaNoGoM, 'm', units)}`,
    },
    ...(limits.daylight === 'required' ? [{ term: 'Daylight', figure: 'needed', rest: '' }] : []),
    ...(limits.rain === 'none' ? [{ term: 'Rain', figure: 'none', rest: '' }] : []),
    ...(limits.airLeastC === null
      ? []
      : [{ term: 'Air', figure: limitText(limits.airLeastC, '°C', units, 'at-least'), rest: 'at least' }]),
    ...(limits.visibilityLeastNm === null
      ? []
      : [{ term: 'Visibility', figure: `${limits.visibilityLeastNm} nm`, rest: 'at least' }]),
  ];
}

function pickForm({ picture, plan }: PassageView, chosen: ChosenWindows, look: StartLook | null): PickForm {
  const { slotEpochMs, shipTimeOffsetMin } = picture;
  const first = slotEpochMs[0] ?? picture.nowEpochMs;
  const second = slotEpochMs[1] ?? first + 10 * MS_PER_MIN;
  const planned = plan.jobs.find(({ jobId }) => jobId === chosen.jobId)?.startUtc;
  const shown = look?.startEpochMs ?? (planned === undefined || planned === null ? first : epochOf(planned));
  const field = (epochMs: number): string => shipField(epochMs, shipTimeOffsetMin);
  return {
    hidden: [
      { name: 'job', value: chosen.jobId },
      { name: 'part', value: String(chosen.partIndex + 1) },
      ...(chosen.handlingId === null ? [] : [{ name: 'handling', value: chosen.handlingId }]),
    ],
    value: field(shown),
    least: field(first),
    most: field(slotEpochMs.at(-1) ?? first),
    stepS: (second - first) / 1000,
  };
}
