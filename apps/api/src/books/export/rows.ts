import type { Tx } from '@fairlead/database';
import type { Cell } from '../../csv.ts';
import { bookedInvoices, bookedMoney, type Stretch } from './read-booked.ts';
import { invoiceRow, lineRows, moneyRow, type TableName, taxRows } from './tables.ts';

/** The rows of one table, one after the other, without its head. */
export async function* rowsOf(
  read: Tx,
  table: TableName,
  stretch: Stretch,
): AsyncGenerator<readonly Cell[]> {
  if (table === 'payments') {
    for (const money of await bookedMoney(read, stretch)) yield moneyRow(money);
    return;
  }
  for await (const invoice of bookedInvoices(read, stretch)) {
    if (table === 'invoices') yield invoiceRow(invoice);
    else yield* table === 'lines' ? lineRows(invoice) : taxRows(invoice);
  }
}
