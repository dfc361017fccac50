import type { Plan } from '../../../lib/planner/index.ts';
import { planIn } from '../../../server/presenters/units/plan-texts.ts';
import type { ShownUnits } from '../../../server/presenters/units/shown-units.ts';

/** Numbers that are no amount of wind, sea or temperature, with the words that say so. */
const OTHER_NUMBERS = [
  /["“][^"”]*["”]/g, // names
  /\b\d{1,2}:\d{2}\b/g,
  /\b(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2}\b/g,
  /\b[\d.]+ (?:of|in) (?:100|9)\b/g,
  /\b[\d.]+ (?:min|h|nm|hPa|σ|%|mm\/h|points)(?![\p{L}\p{N}])/gu,
  /\bmodel 5\w\b/g,
  /\(\d+(?:\.\d+)? m\)/g, // the height of the instrument, and of the wind of a forecast
] as const;

/** An amount in a unit that was chosen, with its force where one is shown. */
const CONVERTED = /[\d.]+ (?:m\/s|ft|°F|kn [([]Bft \d+(?: to \d+)?[)\]])/g;

/**
 * Sentences of a plan in which some amounts were converted and others were not: what is left of them names kn, m or °C still,
 * or has a figure without a unit.
 */
export function mixedSentences(plan: Plan, units: ShownUnits): string[] {
  const [before, after] = [textsOf(plan), textsOf(planIn(plan, units))];
  return after.flatMap((text, i) =>
    text === before[i] ? [] : sentencesOf(text).filter((sentence) => isMixed(sentence)),
  );
}

/** How many texts of it are converted. */
export const convertedCount = (plan: Plan, units: ShownUnits): number => {
  const before = textsOf(plan);
  return textsOf(planIn(plan, units)).filter((text, i) => text !== before[i]).length;
};

const sentencesOf = (text: string): string[] => text.split(/(?<=[.!?])\s/);

function isMixed(sentence: string): boolean {
  let rest = sentence;
  for (const other of OTHER_NUMBERS) rest = rest.replaceAll(other, ' ');
  const left = rest.replaceAll(CONVERTED, ' ');
  return left !== rest && /\d/.test(left);
}

/** Every text of a plan, in the order of its keys. */
function textsOf(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (Array.isArray(value)) return value.flatMap(textsOf);
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsOf) : [];
}
