export { didYouMean } from './did-you-mean.ts';
export {
  assertNever,
  failed,
  type Failed,
  formatProblem,
  type Ok,
  ok,
  okUnless,
  type Problem,
  ProblemList,
  type Result,
} from './result.ts';
export { shownText } from './shown-text.ts';
