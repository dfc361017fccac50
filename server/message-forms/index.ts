export { type Composed, composeMessage, type Composing } from './compose.ts';
export { NOTHING_WRITTEN, readWriteForm, type WriteAsked, type WriteTexts, writeTextsOf } from './write-form.ts';
export { type EntryToWrite, reportEntries, type ReportedInto, type ReportEntries } from './report-entries.ts';
