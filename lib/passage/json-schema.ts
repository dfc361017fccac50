import { z } from 'zod';
import { passageFile } from './passage-file.ts';

/** JSON Schema (2020-12) of the passage file. Orders and references, which it cannot say, are checked by `parsePassage`. */
export const passageJsonSchema = (): object => ({
  title: 'Slatch passage file',
  description: 'Everything the user can edit about one trip. Keys carry their unit; instants are ISO 8601 UTC.',
  ...z.toJSONSchema(passageFile),
});
