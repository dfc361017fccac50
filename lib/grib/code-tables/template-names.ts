/** Names of grid, packing and product templates, for lists and for messages about those not read. */
import { GRIDS_EDITION_1, GRIDS_EDITION_2, PACKINGS, PRODUCTS } from './template-names.table.ts';

const nameIn = (names: Readonly<Record<number, string>>, code: number): string =>
  names[code] ?? 'unknown to this program';

/** Name of a grid: code table 3.1 (edition 2) or 6 (edition 1). */
export const gridName = (edition: 1 | 2, code: number): string =>
  nameIn(edition === 2 ? GRIDS_EDITION_2 : GRIDS_EDITION_1, code);

/** Name of a packing: code table 5.0. */
export const packingName = (code: number): string => nameIn(PACKINGS, code);

/** Name of a product definition template: code table 4.0. */
export const productName = (code: number): string => nameIn(PRODUCTS, code);
