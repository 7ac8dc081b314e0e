import type { Tx } from '@fairlead/database';
import writeXlsxFile, { type Cell as SheetCell } from 'write-excel-file/node';
import { Refused } from '../../errors.ts';
import { bold, sheetCell } from '../../sheet-cell.ts';
import type { Stretch } from './read-booked.ts';
import { rowsOf } from './rows.ts';
import { heads, tableNames } from './tables.ts';

/** A workbook is made in memory; more rows than this go as CSV, which streams. */
const MOST_ROWS = 50_000;

/** All four tables of a stretch as the sheets of one workbook (ISO/IEC 29500). */
export async function workbook(read: Tx, stretch: Stretch): Promise<Buffer> {
  let count = 0;
  const sheets = [];
  for (const table of tableNames) {
    const data: SheetCell[][] = [heads[table].map(bold)];
    for await (const row of rowsOf(read, table, stretch)) {
      count += 1;
      if (count > MOST_ROWS)
        throw new Refused(
          'TOO_LARGE',
          `From ${stretch.from.toISOString().slice(0, 10)} to ${stretch.until.toISOString().slice(0, 10)} there are more than ${MOST_ROWS} rows: ask for fewer days, or for the CSV files.`,
        );
      data.push(row.map(sheetCell));
    }
    sheets.push({ sheet: table, data, stickyRowsCount: 1 });
  }
  return writeXlsxFile(sheets).toBuffer();
}
