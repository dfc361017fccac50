import type { PassageFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { type Texts, withPart } from './part.ts';
import { SETTINGS_FIELDS } from './settings-fields.ts';

/** The passage with the settings as their form says. */
export function withSettings(file: PassageFile, texts: Texts): Result<PassageFile> {
  const { steadyingWindRule, ...others } = entryOf(SETTINGS_FIELDS, file.settings, texts);
  const rule = steadyingWindRule === undefined ? {} : { steadyingWindRule: truthOf(steadyingWindRule) };
  return withPart(file, 'settings', { ...others, ...rule });
}

/** As it was chosen; anything else stays as it is, for the check to name it. */
function truthOf(value: unknown): unknown {
  if (value === 'true') return true;
  return value === 'false' ? false : value;
}
