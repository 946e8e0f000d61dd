// The one door of the package.
export { printingApart } from './apart.ts';
export { buildBookData, buildBookPdf, type ToPrint } from './build-book.ts';
export { morningCardPdf } from './morning-card.ts';
export { slipPdf } from './slip.ts';
export { tagsPdf } from './tags.ts';
export type { Paper } from './typeset.ts';
export { wallSheetPdf } from './wall-sheet.ts';
