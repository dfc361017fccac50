import type { Problem } from '../../lib/result/index.ts';
import { type DocumentVersion, placeOf } from './document.ts';

export const noDocument: Problem = {
  code: 'passage.none',
  where: 'the passage',
  what: 'No passage is shown yet.',
  expected: 'a passage file that could be read',
  remedy: 'Start the program with a passage file, or put the file right and make the plan.',
};

/** Somebody has saved, or another document is shown, since the page was made. */
export const changedMeanwhile = (expected: DocumentVersion, found: DocumentVersion): Problem => ({
  code: 'store.version-conflict',
  where: placeOf(found.number),
  what:
    expected.number === found.number
      ? `The passage was changed meanwhile: it is at version ${found.version}, the change was made to version ${expected.version}.`
      : `Another passage is shown meanwhile: passage ${found.number}, the change was made to passage ${expected.number}.`,
  expected: `version ${expected.version} of passage ${expected.number}`,
  remedy: 'Look at what is there now, and repeat the change where it is still wanted.',
});

/** There is no earlier state of this number to go back to. */
export const noSuchVersion = (found: DocumentVersion, version: number): Problem => ({
  code: 'store.no-such-version',
  where: placeOf(found.number),
  what: `There is no version ${version} of it to go back to.`,
  expected: found.version === 1 ? 'a passage that was changed before' : `a version from 1 to ${found.version - 1}`,
  remedy: 'Look at its versions on the page of the passage as it is kept.',
});
