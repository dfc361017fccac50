import type { Request } from 'express';
import { parseUtc } from '../../lib/time/index.ts';
import { PageError } from './page-error.ts';

/** The hour of the strip that is read, `?hour=UTC` [epoch ms]; null: none is asked for. Throws the page that says what was expected. */
export function hourAsked({ query }: Request): number | null {
  const { hour } = query;
  if (typeof hour !== 'string' || hour === '') return null;
  const at = parseUtc(hour, 'hour');
  if (at.ok) return at.value;
  const [{ what, expected, remedy }] = at.problems;
  throw new PageError(400, 'No such hour', `${what} Expected: ${expected}. ${remedy}`);
}
