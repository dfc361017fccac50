import { failed, ok, type Result } from '../result/index.ts';

/** Largest passage file read [characters]. */
const MOST_CHARACTERS = 5_000_000;

/** JSON from a text, or `passage.too-large` | `passage.not-json` with line and column where known. */
export function parseJson(text: string, where: string): Result<unknown> {
  if (text.length > MOST_CHARACTERS)
    return failed({
      code: 'passage.too-large',
      where,
      what: `The file has ${text.length} characters.`,
      expected: `at most ${MOST_CHARACTERS}`,
      remedy: 'A passage holds no forecast: name the GRIB files in "forecasts".',
    });
  try {
    const value: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
    return ok(value);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return failed({
      code: 'passage.not-json',
      where: placeIn(text, message, where),
      what: `The file is not JSON: ${message}.`,
      expected: 'JSON text (RFC 8259)',
      remedy: 'Look for a missing or trailing comma, bracket or quotation mark.',
    });
  }
}

/** Engines name the position in the message, where they name it at all. */
function placeIn(text: string, message: string, where: string): string {
  const position = /position (\d+)/.exec(message)?.[1];
  if (position === undefined) return where;
  const before = text.slice(0, Number(position)).split('\n');
  return `${where}, line ${before.length}, column ${(before.at(-1)?.length ?? 0) + 1}`;
}
