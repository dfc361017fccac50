import type { ErrorRequestHandler, RequestHandler } from 'express';
import { renderError } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { sizeText } from '../../lib/units/index.ts';
import { PageError } from './page-error.ts';
import { plainlyShown, sendHtml } from './shown.ts';

const NOTHING_THERE = 'There is nothing under this address. Choose one of the pages above, or go back to the passage.';

export const notFound: RequestHandler = (_request, _response, next) => {
  next(new PageError(404, 'No such page', NOTHING_THERE));
};

/** Every error ends here: a refusal with its words, anything else as ours, reported and without its words. */
export const errorPage =
  (deps: Pick<Deps, 'report'>): ErrorRequestHandler =>
  (error: unknown, request, response, _next) => {
    const { status, title, text } = pageOf(error);
    if (status >= 500 && !(error instanceof PageError)) deps.report(error);
    // Half an answer cannot be mended: the reader sees that it broke off.
    if (response.headersSent) return void response.destroy();
    response.status(status);
    return sendHtml(response, renderError({ title, text }, plainlyShown(request)));
  };

interface ErrorPage {
  readonly status: number;
  readonly title: string;
  readonly text: string;
}

function pageOf(error: unknown): ErrorPage {
  if (error instanceof PageError) return { status: error.status, title: error.title, text: error.message };
  const status = statusOf(error);
  if (status === 404)
    return {
      status,
      title: 'No such page',
      text: NOTHING_THERE,
    };
  if (status === 413) return { status, title: 'Too large', text: tooLargeText(error) };
  if (status < 500) return { status, title: 'Not understood', text: NOT_UNDERSTOOD };
  const text =
    'The mistake is ours, not yours. The plan on board is what was shown last; what went wrong stands on the terminal.';
  return { status: 500, title: 'Something broke', text };
}

const NOT_UNDERSTOOD =
  'The address, or what was sent to it, cannot be read, so nothing was changed. Choose the page from those above, and send the form from there.';

/** With how much it was and how much is taken, where the parser of the form says so. */
function tooLargeText(error: unknown): string {
  const [sent, most] = [octetsIn(error, 'length'), octetsIn(error, 'limit')];
  return `${tooLargeAmount(sent, most)}. Nothing was changed. Load the page again and send less: shorten the text, or send it in parts.`;
}

function tooLargeAmount(sentOctets: number | null, mostOctets: number | null): string {
  if (mostOctets === null) return 'More was sent than this page takes at once';
  const taken = `this page takes ${sizeText(mostOctets)} at once`;
  return sentOctets === null ? `More was sent than is taken: ${taken}` : `${sizeText(sentOctets)} were sent; ${taken}`;
}

function octetsIn(error: unknown, key: 'length' | 'limit'): number | null {
  const entries = typeof error === 'object' && error !== null ? Object.entries(error) : [];
  const value: unknown = entries.find(([name]) => name === key)?.[1];
  return typeof value === 'number' ? value : null;
}

/** Status that Express or a parser gave the error; 500 where it gave none. */
function statusOf(error: unknown): number {
  const status: unknown = typeof error === 'object' && error !== null && 'status' in error ? error.status : undefined;
  return typeof status === 'number' && status >= 400 && status < 600 ? status : 500;
}
