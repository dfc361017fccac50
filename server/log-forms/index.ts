export { EVENTS, isLogKind, logFields, type LogKind, type LogSurroundings } from './log-fields.ts';
export { ENTRY, WHERE } from './places.ts';
export { inEntry, statementOf, statementTexts } from './statement.ts';
