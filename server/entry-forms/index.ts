export { choice, field, type EntryField, type FieldOption } from './entry-field.ts';
export { entryOf, textsOf } from './entry-texts.ts';
export { groupsOf, problemsBeside } from './entry-groups.ts';
export { carried, carriedTexts, foundAgain, mergedTexts, type MergedTexts } from './merge-texts.ts';
