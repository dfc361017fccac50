import type { ScheduleSettings } from './settings.ts';
import type { ScheduleSolution } from './solution.ts';

/** Extensions between two reports of progress. */
const REPORT_EVERY_COUNT = 100_000;

/** Extensions that may still be made. A share of the whole can be opened at a time, so that early levels leave some over. */
export class Budget {
  spentCount = 0;
  isCancelled = false;
  private readonly settings: ScheduleSettings;
  private allowedCount: number;
  private reportAtCount = REPORT_EVERY_COUNT;

  constructor(settings: ScheduleSettings) {
    this.settings = settings;
    this.allowedCount = settings.extensionBudget;
  }

  get isSpent(): boolean {
    return this.isCancelled || this.spentCount >= this.allowedCount;
  }

  get leftCount(): number {
    return Math.max(0, this.allowedCount - this.spentCount);
  }

  /** Opens so much of the whole budget, counted from its beginning. */
  openTo(share: number): void {
    this.allowedCount = this.settings.extensionBudget * share;
  }

  spend(count: number): void {
    this.spentCount += count;
    if (this.spentCount < this.reportAtCount) return;
    this.reportAtCount = this.spentCount + REPORT_EVERY_COUNT;
    this.report();
  }

  /** Tells of a plan better than those before it. */
  tell(found: Pick<ScheduleSolution, 'entries' | 'worth'>): void {
    this.settings.onPlan?.(found);
  }

  /** Tells how far the search is, and hears whether it shall end. */
  report(): void {
    const { extensionBudget, onProgress, isCancelled } = this.settings;
    onProgress?.(extensionBudget > 0 ? Math.min(1, this.spentCount / extensionBudget) : 1);
    if (isCancelled?.() === true) this.isCancelled = true;
  }
}
