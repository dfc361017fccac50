export { forbiddenOf, type ForbiddenSpan, withForbidden, withoutForbidden } from './change-forbidden.ts';
export { lockTexts, orderTexts, withOrders, withoutLock } from './change-orders.ts';
export { orderBetween, type Sequence, type SequencedJob, withoutSequence, withSequence } from './change-sequence.ts';
export { FORBID_FIELDS, orderFields } from './order-fields.ts';
