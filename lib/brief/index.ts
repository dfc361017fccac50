export { planSummary, planText, type TextSettings } from './plan-text.ts';
export { publishedWindows, type PublishedWindow, type PublishedWindows } from './windows-json.ts';
export { windowsText } from './windows-text.ts';
