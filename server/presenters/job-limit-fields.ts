import type { Levels } from '../../lib/boat/index.ts';
import type { StepLimits } from '../../lib/jobs/index.ts';
import {
  choiceGroup,
  type FieldGroup,
  type FieldOption,
  figureOf,
  inputOf,
  limitGroup,
  linesGroup,
  linesOf,
  NONE,
  objectGroup,
} from './job-field.ts';
import { daylightWords, optionsOf, rainWords } from './job-words.ts';

/** Limits as an entry gives them: what is left out holds as it does without. */
type GivenLimits = Partial<StepLimits>;

interface LimitsOf {
  /** Before the name of each input. */
  readonly prefix: string;
  /** null: the limits of every step of the job at once. */
  readonly stepId: string | null;
  readonly limits: GivenLimits;
  /** The step is new, and nothing else says whether it has a limit of wind and sea. */
  readonly isNew: boolean;
}

/** Inputs for all limits of a step, or of every step at once. */
export function limitGroups(of: LimitsOf): readonly FieldGroup[] {
  const { limits } = of;
  return [
    levelsGroup(of, { key: 'deckWindKn', label: 'Wind over the deck', unit: 'kn', levels: limits.deckWindKn }),
    oneGroup(of, {
      key: 'deckGustNoGoKn',
      label: 'Gust over the deck, no-go',
      unit: 'kn',
      value: limits.deckGustNoGoKn,
    }),
    levelsGroup(of, { key: 'seaHeightM', label: 'Sea height', unit: 'm', levels: limits.seaHeightM }),
    oneGroup(of, {
      key: 'steepnessNoGoRatio',
      label: 'Steepness of the sea, no-go',
      unit: 'height over length',
      value: limits.steepnessNoGoRatio,
    }),
    choiceGroup(placeOf(of, 'daylight', 'Daylight'), limits.daylight ?? '', choices(of, daylightWords)),
    choiceGroup(placeOf(of, 'rain', 'Rain'), limits.rain ?? '', choices(of, rainWords)),
    oneGroup(of, { key: 'dryBeforeH', label: 'Dry before it begins', unit: 'h', value: limits.dryBeforeH }),
    oneGroup(of, { key: 'airLeastC', label: 'Air, at least', unit: '°C', value: limits.airLeastC }),
    oneGroup(of, { key: 'seaWaterLeastC', label: 'Sea water, at least', unit: '°C', value: limits.seaWaterLeastC }),
    oneGroup(of, { key: 'visibilityLeastNm', label: 'Sight, at least', unit: 'nm', value: limits.visibilityLeastNm }),
    byEyeGroup(of),
  ];
}

const placeOf = ({ prefix, stepId }: LimitsOf, key: string, label: string) => ({
  name: `${prefix}${key}`,
  label,
  keys: ['limits', key],
  ...(stepId === null ? {} : { stepId }),
});

/** For every step at once, nothing may be said: then each step keeps its own. */
const choices = ({ stepId }: LimitsOf, words: Readonly<Record<string, string>>): readonly FieldOption[] => [
  ...(stepId === null ? [{ value: '', text: 'as each step has it' }] : []),
  ...optionsOf(words),
];

function byEyeGroup(of: LimitsOf): FieldGroup {
  const group = linesGroup(placeOf(of, 'byEye', 'To be judged by eye, one a line'), of.limits.byEye ?? []);
  if (of.stepId !== null) return group;
  return { ...group, valueOf: ([text = '']) => (text === '' ? undefined : linesOf(text)) };
}

const figureText = (value: number | null | undefined): string => {
  if (value === undefined) return '';
  return value === null ? NONE : String(value);
};

const oneGroup = (
  of: LimitsOf,
  { key, label, unit, value }: { key: string; label: string; unit: string; value: number | null | undefined },
): FieldGroup => ({
  ...limitGroup({ ...placeOf(of, key, label), unit }, figureText(value)),
  ...(of.stepId === null ? {} : { needed: 'a figure, or the word none' }),
});

const LEVELS = [
  ['ideal', 'ideal'],
  ['caution', 'caution'],
  ['noGo', 'no-go'],
] as const;

function levelsGroup(
  of: LimitsOf,
  { key, label, unit, levels }: { key: string; label: string; unit: string; levels: Levels | null | undefined },
): FieldGroup {
  const shownOf = (part: keyof Levels): string => {
    if (levels === undefined || (levels === null && of.isNew)) return '';
    if (levels === null) return part === 'noGo' ? NONE : '';
    return String(levels[part]);
  };
  const { name, ...place } = placeOf(of, key, label);
  return {
    ...objectGroup(
      place,
      LEVELS.map(([part, word]) => ({
        key: part,
        spec: inputOf({ name: `${name}.${part}`, label: word, unit }, 'figure'),
        shown: shownOf(part),
      })),
      levelsOf,
    ),
    needed: of.stepId === null ? null : 'three levels, or the word none as no-go where it truly has no such limit',
  };
}

function levelsOf(texts: readonly string[]): unknown {
  const given = texts.filter((text) => text !== '');
  if (given.length === 0) return undefined;
  if (given.every((text) => text.toLowerCase() === NONE)) return null;
  const [ideal = '', caution = '', noGo = ''] = texts;
  return { ideal: figureOf(ideal), caution: figureOf(caution), noGo: figureOf(noGo) };
}
