export type {
  Choice,
  ChoiceGate,
  ChoiceTable,
  Configs,
  RestModel,
  ScheduleJob,
  ScheduleProblem,
  SlotSleep,
  Task,
  WaitSlots,
  WorkSpan,
} from './problem.ts';
export { isWaitOver, waitSlotsAt } from './wait-slots.ts';
export type { ScheduleSettings } from './settings.ts';
export { DEFAULT_SCHEDULE_SETTINGS } from './settings.ts';
export type { SimulatedSchedule } from './simulate.ts';
export { simulateSchedule } from './simulate.ts';
export type { ScheduleEntry, ScheduleSolution, ScheduleWorth, SleepEntry, WorkEntry } from './solution.ts';
export { solveSchedule } from './solve.ts';
