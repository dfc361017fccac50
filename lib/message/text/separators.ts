/** Between the items of a body. */
export const ITEM_SEPARATOR = '/';
/** Between the fields of an item. */
export const FIELD_SEPARATOR = ',';
