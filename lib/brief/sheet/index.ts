export { deckSheet } from './deck-sheet.ts';
export type { DeckSheet, NumberRow, PartRow, SheetFact, SheetRow } from './sheet.ts';
export { deckSheetText } from './sheet-text.ts';
export type { SheetInput } from './sheet-work.ts';
