/** What an archive is for. */
export type ArchiveKind = 'store' | 'passage';
