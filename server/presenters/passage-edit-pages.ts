import type { BoatPage, SpeedsPage } from './boat-page.ts';
import type { EntryPage } from './entry-page.ts';
import type { TrackPage } from './track-page.ts';

/** Any page on which start, track, boat, watchkeeper or settings are changed. */
export type PassageEditPages = EntryPage | TrackPage | BoatPage | SpeedsPage;
