/** Reading a spec sheet needs its schema and every calculator's name: a chunk of its own, fetched when one is read. */
export {
  csvFromSheet,
  leftOutOfCsv,
  outlineSheet,
  readSheet,
  sheetFromCsv,
  sheetWithList,
} from '@fettle/book';
