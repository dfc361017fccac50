import { Router } from 'express';
import { formWithin } from './body-limit.ts';
import { pageBefore } from './page-before.ts';
import { PageError } from './page-error.ts';

const YEAR_MS = 365 * 24 * 3_600_000;

/** The day or night display, kept in a cookie; then back to the page the form stood on. */
export function styleRoutes(): Router {
  return Router().post('/style', formWithin(1024, 10), (request, response) => {
    const body: unknown = request.body;
    const style = typeof body === 'object' && body !== null && 'style' in body ? body.style : undefined;
    if (style !== 'day' && style !== 'night') {
      throw new PageError(
        400,
        'Not a display',
        'There is a day display and a night display. Press the button at the top of any page.',
      );
    }
    response.cookie('slatch_style', style, { httpOnly: true, sameSite: 'strict', path: '/', maxAge: YEAR_MS });
    response.redirect(303, pageBefore(request));
  });
}
