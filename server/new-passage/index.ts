/** A passage entered in one form: the only door of this folder. */
export { inputOf, type PlacedProblem, placedIn } from './placed-problem.ts';
export { type Entered, linksInput, passageOf } from './passage-of.ts';
export { trackLines } from './track-lines.ts';
