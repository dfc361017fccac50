/** Forms with files: the only door of this folder. */
export { readSmall, readUpload, type SentFile, type TakeFile } from './read-upload.ts';
