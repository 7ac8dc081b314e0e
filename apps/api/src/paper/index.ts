/** Drawing on a sheet, for subjects that write papers of their own. */

export { certificateWords, nameOfBook } from './entry-words.ts';
export { dateText, dayText, moneyText, recordHours } from './figures.ts';
export { drawFacts, drawNotes, drawStamp, drawTitle } from './parts.ts';
export { DrawingSheet } from './sheet.ts';
