/** Forms of the locker and of the pieces to cut, as changes of the passage file. The only door of this folder. */
export { withKerf, withoutPiece, withPiece } from './change-cutting.ts';
export { shownItem, withItem, withLocker, withoutItem } from './change-locker.ts';
export { ITEM_FIELDS, ITEM_KNOWN_BY, PIECE_FIELDS, PIECE_KNOWN_BY } from './locker-fields.ts';
export { lockerAfterSawing, madeCountOf, withSawn } from './saw.ts';
