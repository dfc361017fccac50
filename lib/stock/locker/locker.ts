export const LOCKER_KINDS = ['material', 'tool', 'bar'] as const;

/** Material is used up, a tool comes back, a bar (batten, tube, rod) is cut to length. */
export type LockerKind = (typeof LOCKER_KINDS)[number];

/** One line of the locker. */
export interface LockerItem {
  readonly item: string;
  readonly kind: LockerKind;
  readonly unit: string;
  /** On board now: what finished steps have used is off already. */
  readonly onBoardAmount: number;
  /** Reserve never to go below; it may be more than there is, and then none of it may be taken. */
  readonly keepAmount: number;
  /** Where it is stowed; null: not said. */
  readonly place: string | null;
  /** Of a bar; null: it is none. */
  readonly lengthMm: number | null;
  readonly diameterMm: number | null;
  /** Not to be used before; null: at once. */
  readonly readyEpochMs: number | null;
}

export interface Locker {
  readonly items: readonly LockerItem[];
}

/** What a line of the locker is where nothing else is said. */
export const LOCKER_ITEM_DEFAULTS: Omit<LockerItem, 'item' | 'unit' | 'onBoardAmount'> = {
  kind: 'material',
  keepAmount: 0,
  place: null,
  lengthMm: null,
  diameterMm: null,
  readyEpochMs: null,
};

/** What a locker may hold, in a passage file and in a table alike. */
export const LOCKER_LIMITS = {
  mostLineCount: 500,
  most: 1_000_000,
  longestTextCount: 400,
  longestBarMm: 100_000,
  thickestBarMm: 1000,
} as const;

/** Unit of everything counted by the piece. */
export const PIECES = 'pieces';

/** Items are the same whatever their capitals and the spaces round them. */
export const itemKey = (item: string): string => item.trim().toLowerCase();

/** What may be taken of a line: on board less its reserve, never below 0. */
export const freeAmount = ({ onBoardAmount, keepAmount }: LockerItem): number =>
  Math.max(0, onBoardAmount - keepAmount);
