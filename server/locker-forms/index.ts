export {
  cutPlanOf,
  lockerAfterCut,
  withItem,
  withKerf,
  withLocker,
  withoutCutting,
  withoutItem,
  withoutPiece,
  withPiece,
} from './change-locker.ts';
export { ITEM_FIELDS, PIECE_FIELDS } from './locker-fields.ts';
