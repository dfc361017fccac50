export interface Clock {
  readonly ship: string;
  readonly offset: string;
  readonly utc: string;
  /** Empty where the clock runs. */
  readonly note: string;
}
