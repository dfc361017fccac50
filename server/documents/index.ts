/** The passage that is shown: the only door of this folder. */
export {
  type BringBack,
  type ChangePassage,
  type DocumentText,
  type DocumentVersion,
  type FileState,
  isSameVersion,
  type MadePassage,
  type PassageDocument,
  type PassageDocumentInfo,
} from './document.ts';
export { type Documents, keepDocuments } from './keep-documents.ts';
