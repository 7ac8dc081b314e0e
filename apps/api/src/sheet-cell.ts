import type { Cell as SheetCell } from 'write-excel-file/node';
import type { Cell } from './csv.ts';

/** The head of a column. */
export const bold = (value: string): SheetCell => ({ value, type: String, fontWeight: 'bold' });

/** A cell of a workbook (ISO/IEC 29500) as it would stand in a CSV file. */
export function sheetCell(cell: Cell): SheetCell {
  if (cell === null) return null;
  // A day is a day of the calendar, whatever the time zone of who reads.
  if (cell.kind === 'day')
    return { value: new Date(`${cell.value}T00:00:00Z`), type: Date, format: 'yyyy-mm-dd' };
  const [whole = '', fraction = ''] = cell.value.split('.');
  // A number of more digits than a spreadsheet keeps stays text: none is rounded in silence.
  if (cell.kind === 'text' || (whole + fraction).replace(/\D/g, '').length > 15)
    return { value: cell.value, type: String };
  return {
    value: Number(cell.value),
    type: Number,
    format: fraction === '' ? '0' : `0.${'0'.repeat(fraction.length)}`,
  };
}
