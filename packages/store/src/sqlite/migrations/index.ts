import { keepEntriesSheetsPhotos } from './0001-keep-entries-sheets-photos.ts';
import type { Migration } from './migration.ts';

/** Every migration, in order. */
export const MIGRATIONS: readonly Migration[] = [keepEntriesSheetsPhotos];
