import { type CookieOptions, type Request, Router } from 'express';
import { renderDisplay } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { displayPage } from '../presenters/display-page.ts';
import { unitsOfCodes } from '../presenters/units/shown-units.ts';
import { formBody, formOf } from './form.ts';
import { ownPath } from './own-path.ts';
import { pageBefore } from './page-before.ts';
import { PageError } from './page-error.ts';
import { UNITS_COOKIE, unitsCookie, unitsOf } from './reader-units.ts';
import { sendHtml, shownFor } from './shown.ts';

const YEAR_MS = 365 * 24 * 3_600_000;
const KEPT: CookieOptions = { httpOnly: true, sameSite: 'strict', path: '/', maxAge: YEAR_MS };

/** Day or night and the units figures are read in, kept in cookies; then back to where one came from. */
export function displayRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/display', async (request, response) => {
      const shown = await shownFor(deps, request);
      const page = displayPage({ style: shown.style, units: unitsOf(request), backHref: cameFrom(request) });
      sendHtml(response, renderDisplay(page, shown));
    })
    .post('/display', formBody, (request, response) => {
      const form = formOf(request);
      const style = form.text('style');
      const units = unitsOfCodes({
        wind: form.text('wind'),
        height: form.text('height'),
        temperature: form.text('temperature'),
      });
      if (units === null || (style !== 'day' && style !== 'night')) throw new PageError(400, 'Not a display', CHOICES);
      response.cookie('slatch_style', style, KEPT).cookie(UNITS_COOKIE, unitsCookie(units), KEPT);
      response.redirect(303, ownPath(form.text('back')));
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const CHOICES =
  'There is a day and a night display; wind in kn, m/s or Beaufort; the sea in m or ft; temperature in °C or °F. Choose one of each on the page Display.';

/** The page one came from; from this one itself, or from elsewhere, the passage. */
function cameFrom(request: Request): string {
  const path = pageBefore(request);
  return /^\/display(?:[?#]|$)/.test(path) ? '/' : path;
}
