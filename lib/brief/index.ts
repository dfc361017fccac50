export { planText, type TextSettings } from './plan-text.ts';
export { planJsonSchema, windowsJsonSchema } from './published-schema.ts';
export { publishedWindows, type PublishedWindow, type PublishedWindows } from './windows-json.ts';
export { windowsText } from './windows-text.ts';
