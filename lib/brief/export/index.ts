export { type CalendarSettings, planCalendar } from './calendar.ts';
export { planCsv } from './csv.ts';
export { exportNames, type ExportNames } from './export-names.ts';
export { type GpxSettings, planGpx } from './gpx.ts';
export { watchBillText } from './watch-bill.ts';
