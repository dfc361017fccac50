import { homedir } from 'node:os';
import { dataFolder } from '../../server/stores/index.ts';
import { type TakenApart, WrongUse } from './forecast/arguments.ts';

/** Folder of the store: --store, else SLATCH_STORE, else the platform's data folder; the server's own unless told. */
export function storeFolder(given: TakenApart): string {
  const folder = given.texts.get('store');
  if (folder?.trim() === '') throw new WrongUse('--store needs a name.');
  const machine = { platform: process.platform, environment: process.env, homeFolder: homedir() };
  return folder ?? process.env['SLATCH_STORE'] ?? dataFolder(machine);
}
