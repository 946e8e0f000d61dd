// The one door of the package.
export { archiveOf } from './archive/archive.ts';
export { imported } from './archive/importing.ts';
export { type ArchiveContent, readArchive } from './archive/reading.ts';
export { archiveSchema } from './archive/schema.ts';
export { type DataDirectory, openDataDirectory } from './data-directory.ts';
export { exclusiveLock, isLocked, type Lock } from './exclusive-lock.ts';
export { openSqliteStore } from './sqlite/sqlite-store.ts';
export type { Appended, JobCount, Parcel, Photo, Sheet, Store } from './store.ts';
export { type Draft, type Writer, written } from './writer.ts';
export { asWriter } from './writer-lock.ts';
