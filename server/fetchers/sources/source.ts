import { z } from 'zod';
import { QUANTITIES, type QuantityId } from '../../../lib/forecast/index.ts';
import { failed, type Result } from '../../../lib/result/index.ts';
import { readShape } from '../../../lib/shape/index.ts';
import { templateProblems } from './expand-template.ts';
import type { ForecastCredit } from '../../stores/index.ts';

const text = (mostCount = 500) => z.string().min(1).max(mostCount);
const hour = z.int().min(0).max(23);
const stepH = z.int().min(0).max(1000);
/** What a message must say of itself in the index (or, without an index, in the address). */
const wantedKeys = z.record(z.string(), z.union([z.string(), z.number()]));

/**
 * A source of forecasts as data.
 *
 * - `url`, `indexUrl`: addresses with fields in braces (`expandTemplate`).
 * - `index`: how the index beside a file is written. `lines`: `number:offset:d=date:parameter:level:step:` a line;
 *   `json-lines`: an object a line with `_offset`, `_length` and keys.
 * - `cyclesH`: hours UTC at which runs begin. `delayMin`: minutes from there until all steps can be fetched.
 * - `steps`: steps published [h], `cyclesH` narrows a row to runs of these hours.
 * - `members`: of an ensemble; 0 is the control run. Names go into `{member}` (`*` is the number with two digits);
 *   with `memberKey` all are in one file, and the index tells them apart by that key.
 * - `quantities`: what the messages of each quantity say of themselves in the index: all keys must be equal.
 * - `messageOctets`: typical size of one message, for an estimate where there is no index.
 */
const sourceSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,40}$/, 'lower-case letters, digits and -, at most 41'),
  name: text(),
  provider: text(),
  licence: text(),
  attribution: text(),
  evidence: text().optional(),
  url: text(2000),
  indexUrl: text(2000).optional(),
  index: z.enum(['lines', 'json-lines']).optional(),
  cyclesH: z.array(hour).min(1).max(24),
  delayMin: z.number().min(0).max(2880),
  steps: z
    .array(
      z.strictObject({ fromH: stepH, toH: stepH, everyH: z.int().min(1).max(240), cyclesH: z.array(hour).optional() }),
    )
    .min(1),
  members: z
    .strictObject({
      control: text(60).nullable(),
      perturbed: text(60),
      count: z.int().min(1).max(500),
      memberKey: text(60).optional(),
    })
    .optional(),
  quantities: z.partialRecord(z.enum(QUANTITIES.map(({ id }) => id)), z.array(wantedKeys).min(1)),
  messageOctets: z.number().min(100).max(1e9),
});

export type ForecastSource = z.output<typeof sourceSchema>;

/** One kind of message wanted: its quantity, and what it says of itself. */
export interface WantedMessage {
  readonly quantity: QuantityId;
  readonly keys: Readonly<Record<string, string | number>>;
}

/**
 * A source as a user's JSON file describes it.
 *
 * @returns every problem of its shape, its addresses and what does not fit together (`source.…`)
 */
export function readSource(json: string, where: string): Result<ForecastSource> {
  let raw: unknown;
  try {
    raw = JSON.parse(json);
  } catch (error) {
    return failed({
      code: 'source.not-json',
      where,
      what: `The file is not JSON: ${error instanceof Error ? error.message : String(error)}.`,
      expected: 'one JSON object that describes a source',
      remedy: 'Correct it at the place named.',
    });
  }
  const read = readShape(sourceSchema, raw, { where, path: [], codeWord: 'source' });
  if (!read.ok) return read;
  const [first, ...rest] = senseProblems(read.value, where);
  return first === undefined ? read : failed(first, ...rest);
}

function senseProblems(source: ForecastSource, where: string) {
  const problems = [...templateProblems(source.url, `${where}, url`)];
  if (source.indexUrl !== undefined) problems.push(...templateProblems(source.indexUrl, `${where}, indexUrl`));
  if ((source.indexUrl === undefined) !== (source.index === undefined)) {
    problems.push({
      code: 'source.index-half',
      where,
      what: `It has ${source.index === undefined ? 'indexUrl without index' : 'index without indexUrl'}.`,
      expected: 'both indexUrl and index, or neither',
      remedy: 'Add the other, or take this one out.',
    });
  }
  for (const [row, { fromH, toH }] of source.steps.entries()) {
    if (toH < fromH)
      problems.push({
        code: 'source.steps-backwards',
        where: `${where}, steps[${row}]`,
        what: `The steps end at ${toH} h, before they begin at ${fromH} h.`,
        expected: 'toH at or after fromH',
        remedy: 'Change them round.',
      });
  }
  if (Object.keys(source.quantities).length === 0)
    problems.push({
      code: 'source.no-quantity',
      where: `${where}, quantities`,
      what: 'It names no quantity.',
      expected: 'at least one of wind, gust, seaHeight and so on',
      remedy: 'Say which messages hold the wind.',
    });
  return problems;
}

/** What is kept of a source with a forecast that came from it. */
export const creditOf = ({ name, attribution, licence }: ForecastSource): ForecastCredit => ({
  sourceName: name,
  attribution,
  terms: licence,
});
