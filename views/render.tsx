import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import './htmx-attributes.ts';
import type { PassagePage } from '../server/presenters/passage-page.ts';
import type { PlanPage } from '../server/presenters/plan-page.ts';
import type { WindowsPage } from '../server/presenters/windows-page.ts';
import { ErrorDocument, ErrorMain, type ErrorText } from './pages/error-page.tsx';
import type { Style } from './pages/frame.tsx';
import { PassageDocument, PassageMain } from './pages/passage-page.tsx';
import { PlanPageDocument, PlanPageMain } from './pages/plan-page.tsx';
import { WindowsDocument, WindowsMain } from './pages/windows-page.tsx';

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

export const renderWindows = (page: WindowsPage, { extent, style }: Shown): string =>
  asText(extent, extent === 'document' ? <WindowsDocument page={page} style={style} /> : <WindowsMain page={page} />);

export const renderPlan = (page: PlanPage, { extent, style }: Shown): string =>
  asText(extent, extent === 'document' ? <PlanPageDocument page={page} style={style} /> : <PlanPageMain page={page} />);

export const renderError = (error: ErrorText, { extent, style }: Shown): string =>
  asText(extent, extent === 'document' ? <ErrorDocument error={error} style={style} /> : <ErrorMain error={error} />);
