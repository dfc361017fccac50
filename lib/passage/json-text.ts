import type { Result } from '../result/index.ts';
import { parseJsonText } from '../shape/index.ts';

/** Largest passage file read [characters]. */
const MOST_CHARACTERS = 5_000_000;

/** JSON from a text, or `passage.too-large`, `.not-json`, `.too-deep`, `.key-twice`, `.number-too-large`. */
export const parseJson = (text: string, where: string): Result<unknown> =>
  parseJsonText(text, {
    where,
    codeWord: 'passage',
    most: {
      characterCount: MOST_CHARACTERS,
      remedy: 'A passage holds no forecast: name the GRIB files in "forecasts".',
    },
  });
