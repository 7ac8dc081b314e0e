import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { Client } from '@fairlead/database';
import type { Express, Request, Response } from 'express';
import { allow, type Context, createContext, type Viewer } from '../../context.ts';
import { csvRecord, textCell } from '../../csv.ts';
import { Refused } from '../../errors.ts';
import type { Stretch } from './read-booked.ts';
import { rowsOf } from './rows.ts';
import { stretchAsked } from './stretch-asked.ts';
import { heads, tableNames } from './tables.ts';
import { workbook } from './workbook.ts';

export interface ExportParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/**
 * `GET /paper/books/:table.csv?from=&until=` (RFC 4180, UTF-8) and `GET /paper/books.xlsx?from=&until=`: what was billed and paid
 * between two days, for the bookkeeper's own program. For the front desk and the manager.
 */
export function mountBooksExport(app: Express, parts: ExportParts): void {
  const within = async (
    request: Request,
    work: (context: Context, stretch: Stretch) => Promise<void>,
  ) => {
    const { client, viewerOf, uploadsDir } = parts;
    const context = createContext({ client, viewer: await viewerOf(request), uploadsDir });
    try {
      await allow(context, 'front_desk', 'manager');
      const { timeZone } = await context.read.shop.findFirstOrThrow({ select: { timeZone: true } });
      await work(context, { ...stretchAsked(request.query), timeZone });
    } finally {
      await context.close();
    }
  };

  app.get('/paper/books/:table.csv', (request, response) =>
    within(request, async ({ read }, stretch) => {
      const table = tableNames.find((name) => name === request.params.table);
      if (!table)
        throw new Refused(
          'NOT_FOUND',
          `There is no table "${request.params.table.slice(0, 40)}"; there are ${tableNames.join(', ')}.`,
        );
      const rows = rowsOf(read, table, stretch);
      // The first row is read before anything is answered: what goes wrong until then is a refusal, after it the answer is cut off.
      const first = await rows.next();
      headers(response, 'text/csv; charset=utf-8; header=present', `${table}${named(stretch)}.csv`);
      await pipeline(
        Readable.from(
          (async function* () {
            yield csvRecord(heads[table].map(textCell));
            if (!first.done) yield csvRecord(first.value);
            for await (const row of rows) yield csvRecord(row);
          })(),
        ),
        response,
      );
    }),
  );

  app.get('/paper/books.xlsx', (request, response) =>
    within(request, async ({ read }, stretch) => {
      const bytes = await workbook(read, stretch);
      headers(response, XLSX, `books${named(stretch)}.xlsx`);
      response.end(bytes);
    }),
  );
}

const named = ({ from, until }: Stretch) =>
  `-${from.toISOString().slice(0, 10)}-${until.toISOString().slice(0, 10)}`;

const headers = (response: Response, type: string, filename: string) =>
  void response.status(200).set({
    'content-type': type,
    'content-disposition': `attachment; filename="${filename}"`,
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    'cross-origin-resource-policy': 'same-origin',
  });
