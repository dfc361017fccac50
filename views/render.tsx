import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import './htmx-attributes.ts';
import type { PassagePage } from '../server/presenters/passage-page.ts';
import { ErrorDocument, ErrorMain, type ErrorText } from './pages/error-page.tsx';
import type { Style } from './pages/frame.tsx';
import { PassageDocument, PassageMain } from './pages/passage-page.tsx';

/** Whole documents, or the part of them that htmx swaps in. */
export type Extent = 'document' | 'part';

export interface Shown {
  readonly extent: Extent;
  readonly style: Style;
}

const asText = (extent: Extent, node: VNode): string =>
  extent === 'document' ? `<!doctype html>${renderToString(node)}` : renderToString(node);

export const renderPassage = (page: PassagePage, { extent, style }: Shown): string =>
  asText(extent, extent === 'document' ? <PassageDocument page={page} style={style} /> : <PassageMain page={page} />);

export const renderError = (error: ErrorText, { extent, style }: Shown): string =>
  asText(extent, extent === 'document' ? <ErrorDocument error={error} style={style} /> : <ErrorMain error={error} />);
