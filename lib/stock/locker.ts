export interface LockerItem {
  readonly item: string;
  readonly unit: string;
  readonly onBoardAmount: number;
  /** Reserve never to go below. */
  readonly keepAmount: number;
}

export interface Locker {
  readonly items: readonly LockerItem[];
}
