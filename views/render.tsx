import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import './htmx-attributes.ts';
import type { AccessPage } from '../server/presenters/access-page.ts';
import type { DamagePages } from '../server/presenters/damage-page.ts';
import type { DisplayPage } from '../server/presenters/display-page.ts';
import type { DocumentPage } from '../server/presenters/document-page.ts';
import type { ForecastPage } from '../server/presenters/forecast-page.ts';
import type { JobsPages } from '../server/presenters/jobs-pages.ts';
import type { LockerPages } from '../server/presenters/locker-page.ts';
import type { LogPages } from '../server/presenters/log-page.ts';
import type { CountView } from '../server/presenters/message-count.ts';
import type { MessagesPages } from '../server/presenters/messages-page.ts';
import type { NewPage } from '../server/presenters/new-page.ts';
import type { OrderPage } from '../server/presenters/order-page.ts';
import type { PassageEditPages } from '../server/presenters/passage-edit-pages.ts';
import type { PassagePage } from '../server/presenters/passage-page.ts';
import type { PlanPage } from '../server/presenters/plan-page.ts';
import type { PlansPage } from '../server/presenters/plans-page.ts';
import type { SheetPage } from '../server/presenters/sheet-page.ts';
import type { TrialPage } from '../server/presenters/trial-page.ts';
import type { WatchPage } from '../server/presenters/watch-page.ts';
import type { WindowsPage } from '../server/presenters/windows-page.ts';
import { AccessDocument, AccessMain } from './pages/access-page.tsx';
import { DamageDocument, DamageMain } from './pages/damage-page.tsx';
import { DisplayDocument, DisplayMain } from './pages/display-page.tsx';
import { DocumentPageDocument, DocumentPageMain } from './pages/document-page.tsx';
import { ErrorDocument, ErrorMain, type ErrorText } from './pages/error-page.tsx';
import { Fetching, ForecastDocument, ForecastMain } from './pages/forecast-page.tsx';
import type { Around } from './pages/frame.tsx';
import { JobsDocument, JobsMain } from './pages/jobs-page.tsx';
import { LockerDocument, LockerMain } from './pages/locker-page.tsx';
import { LogDocument, LogMain } from './pages/log-page.tsx';
import { CountPart } from './parts/message-count.tsx';
import { MessagesDocument, MessagesMain } from './pages/messages-page.tsx';
import { NewDocument, NewMain } from './pages/new-page.tsx';
import { OrderDocument, OrderMain } from './pages/order-page.tsx';
import { PassageEditDocument, PassageEditMain } from './pages/passage-edit-page.tsx';
import { PassageDocument, PassageMain } from './pages/passage-page.tsx';
import { PlanPageDocument, PlanPageMain } from './pages/plan-page.tsx';
import { PlansDocument, PlansMain } from './pages/plans-page.tsx';
import { SheetDocument, SheetMain } from './pages/sheet-page.tsx';
import { TrialDocument, TrialMain } from './pages/trial-page.tsx';
import { MadeLine, MakingLine } from './parts/plan-making.tsx';
import { WatchDocument, WatchMain } from './pages/watch-page.tsx';
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

/** A form or list on which start, track, boat, watchkeeper or settings are changed. */
export const renderPassageEdit = (page: PassageEditPages, { extent, ...around }: Shown): string =>
  asText(
    extent,
    extent === 'document' ? <PassageEditDocument page={page} around={around} /> : <PassageEditMain page={page} />,
  );

export const renderWindows = (page: WindowsPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <WindowsDocument page={page} around={around} /> : <WindowsMain page={page} />);

export const renderPlan = (page: PlanPage, { extent, ...around }: Shown): string =>
  asText(
    extent,
    extent === 'document' ? <PlanPageDocument page={page} around={around} /> : <PlanPageMain page={page} />,
  );

/** The watchkeeper through the plan. */
export const renderWatch = (page: WatchPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <WatchDocument page={page} around={around} /> : <WatchMain page={page} />);

export const renderError = (error: ErrorText, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <ErrorDocument error={error} around={around} /> : <ErrorMain error={error} />);

/** Asking for the access key, or what the reader is told of it. */
export const renderAccess = (page: AccessPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <AccessDocument page={page} around={around} /> : <AccessMain page={page} />);

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

/** The page of one job that is taken on deck. */
export const renderSheet = (page: SheetPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <SheetDocument page={page} around={around} /> : <SheetMain page={page} />);

/** The log, the choice of a job, or the form of an entry. */
export const renderLog = (page: LogPages, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <LogDocument page={page} around={around} /> : <LogMain page={page} />);

/** How much a message would fill. */
export const renderMessageCount = (count: CountView): string => renderToString(<CountPart count={count} />);

/** The messages, one of them, or the key to their fields. */
export const renderMessages = (page: MessagesPages, { extent, ...around }: Shown): string =>
  asText(
    extent,
    extent === 'document' ? <MessagesDocument page={page} around={around} /> : <MessagesMain page={page} />,
  );

/** The forecast, its files, and getting another. */
export const renderForecast = (page: ForecastPage, { extent, ...around }: Shown): string =>
  asText(
    extent,
    extent === 'document' ? <ForecastDocument page={page} around={around} /> : <ForecastMain page={page} />,
  );

/** How far a fetch is; nothing where there is none. */
export const renderFetching = (page: ForecastPage): string =>
  page.fetch === null ? '' : asText('part', <Fetching page={page} fetch={page.fetch} />);

/** Day or night, and the units of the reader. */
export const renderDisplay = (page: DisplayPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <DisplayDocument page={page} around={around} /> : <DisplayMain page={page} />);

/** The form of a passage of one's own. */
export const renderNew = (page: NewPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <NewDocument page={page} around={around} /> : <NewMain page={page} />);

/** The order of the work, and how it is changed. */
export const renderOrder = (page: OrderPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <OrderDocument page={page} around={around} /> : <OrderMain page={page} />);

/** Every plan, and what changed between two. */
export const renderPlans = (page: PlansPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <PlansDocument page={page} around={around} /> : <PlansMain page={page} />);

/** A start tried in the plan. */
export const renderTrial = (page: TrialPage, { extent, ...around }: Shown): string =>
  asText(extent, extent === 'document' ? <TrialDocument page={page} around={around} /> : <TrialMain page={page} />);

/** The line of a notice that is asked for again while a plan is made. */
export const renderMaking = (line: { readonly text: string; readonly isMaking: boolean }): string =>
  asText('part', line.isMaking ? <MakingLine text={line.text} /> : <MadeLine text={line.text} />);
