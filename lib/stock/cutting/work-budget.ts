/** Steps of search still allowed. Counted, never timed, so that the same input gives the same plan. */
export class WorkBudget {
  private leftCount: number;
  private readonly whole: WorkBudget | null;

  constructor(stepCount: number, whole: WorkBudget | null = null) {
    this.leftCount = stepCount;
    this.whole = whole;
  }

  /** Takes steps, of the whole budget too; false when either has none left. */
  spend(stepCount = 1): boolean {
    this.leftCount -= stepCount;
    const wholeLasts = this.whole === null || this.whole.spend(stepCount);
    return wholeLasts && this.leftCount >= 0;
  }

  get isSpent(): boolean {
    return this.leftCount < 0 || this.whole?.isSpent === true;
  }

  /** A part of this budget, of at most so many steps. */
  part(mostCount: number): WorkBudget {
    return new WorkBudget(mostCount, this);
  }

  /** Steps left, not below 0. */
  get remainingCount(): number {
    return Math.max(0, Math.min(this.leftCount, this.whole?.remainingCount ?? this.leftCount));
  }
}
