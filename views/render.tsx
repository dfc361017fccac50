import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import './htmx-attributes.ts';
import type { DamagePages } from '../server/presenters/damage-page.ts';
import type { DocumentPage } from '../server/presenters/document-page.ts';
import type { JobsPages } from '../server/presenters/jobs-pages.ts';
import type { LockerPages } from '../server/presenters/locker-page.ts';
import type { PassagePage } from '../server/presenters/passage-page.ts';
import type { PlanPage } from '../server/presenters/plan-page.ts';
import type { WindowsPage } from '../server/presenters/windows-page.ts';
import { DamageDocument, DamageMain } from './pages/damage-page.tsx';
import { DocumentPageDocument, DocumentPageMain } from './pages/document-page.tsx';
import { ErrorDocument, ErrorMain, type ErrorText } from './pages/error-page.tsx';
import type { Around } from './pages/frame.tsx';
import { JobsDocument, JobsMain } from './pages/jobs-page.tsx';
import { LockerDocument, LockerMain } from './pages/locker-page.tsx';
import { PassageDocument, PassageMain } from './pages/passage-page.tsx';
import { PlanPageDocument, PlanPageMain } from './pages/plan-page.tsx';
import { WindowsDocument, WindowsMain } from './pages/windows-page.tsx';

/** Whole documents, or the part of them that htmx swaps in. */
export type Extent = 'document' | 'part';

export interface Shown extends Around {
  readonly extent: Extent;
}

const asText = (extent: Extent, node: VNode): string =>
  extent === 'document' ? `<!doctype html>${renderToString(node)}` : renderToString(node);

export const renderPassage = (page: PassagePage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <PassageDocument page={page} around={around} /> : <PassageMain page={page} />);

export const renderWindows = (page: WindowsPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <WindowsDocument page={page} around={around} /> : <WindowsMain page={page} />);

export const renderPlan = (page: PlanPage, { extent, ...around }: Shown): string =>
  asText(
    extent,
    extent === 'document' ? <PlanPageDocument page={page} around={around} /> : <PlanPageMain page={page} />,
  );

export const renderError = (error: ErrorText, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <ErrorDocument error={error} around={around} /> : <ErrorMain error={error} />);

export const renderDocument = (page: DocumentPage, { extent, ...around }: Shown): string =>
  asText(
    extent,
    extent === 'document' ? <DocumentPageDocument page={page} around={around} /> : <DocumentPageMain page={page} />,
  );

/** The list of jobs, one job, or its form. */
export const renderJobs = (page: JobsPages, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <JobsDocument page={page} around={around} /> : <JobsMain page={page} />);

/** The sails with their drawings, or the form of a sail or tear. */
export const renderDamage = (page: DamagePages, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <DamageDocument page={page} around={around} /> : <DamageMain page={page} />);

/** The locker with its cut sheet, or the form of a line or piece. */
export const renderLocker = (page: LockerPages, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <LockerDocument page={page} around={around} /> : <LockerMain page={page} />);
