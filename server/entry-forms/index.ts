export { choice, field, type EntryField, type FieldOption } from './entry-field.ts';
export { entryOf, textsOf } from './entry-texts.ts';
export { groupsOf, problemsBeside } from './entry-groups.ts';
