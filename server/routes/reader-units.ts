import type { Request } from 'express';
import { codesOfUnits, PLAIN_UNITS, type ShownUnits, unitsOfCodes } from '../presenters/units/shown-units.ts';

export const UNITS_COOKIE = 'slatch_units';

const COOKIE = new RegExp(`(?:^|;\\s*)${UNITS_COOKIE}=([a-z]+)\\.([a-z]+)\\.([a-z]+)(?:;|$)`);

/** The units of the reader's cookie; kn, m and °C where there is none that can be read. */
export function unitsOf(request: Pick<Request, 'get'>): ShownUnits {
  const [, wind = '', height = '', temperature = ''] = COOKIE.exec(request.get('Cookie') ?? '') ?? [];
  return unitsOfCodes({ wind, height, temperature }) ?? PLAIN_UNITS;
}

/** `mps.ft.c`: units as the cookie holds them. */
export function unitsCookie(units: ShownUnits): string {
  const { wind, height, temperature } = codesOfUnits(units);
  return `${wind}.${height}.${temperature}`;
}
