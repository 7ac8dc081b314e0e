import type { Client } from '@fairlead/database';
import type { Express, Request, Response } from 'express';
import writeXlsxFile from 'write-excel-file/node';
import { allow, type Context, createContext, type Viewer } from '../../context.ts';
import { csvRecord, textCell } from '../../csv.ts';
import { notFound, Refused } from '../../errors.ts';
import { keyOf } from '../../ids.ts';
import { refuseForeignPage } from '../../own-pages.ts';
import { bold, sheetCell } from '../../sheet-cell.ts';
import { shopToday } from '../../today.ts';
import { wholeBody } from '../../whole-body.ts';
import { dueListsOf } from '../due-list.ts';
import { takeFlights } from '../times/take-flights.ts';
import { dueHead, dueRows } from './due-rows.ts';
import { importDue } from './import-due.ts';

export interface FileParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
const bodyOf = wholeBody({
  what: 'file',
  most: 2 * 1024 * 1024,
  instead: 'send it in parts',
});

/**
 * `POST /due/flights/:aircraft` takes a list of flights and `POST /due/items/:aircraft` a file of due items (CSV, UTF-8), whole or
 * not at all: 201, or 422 with each refused cell. `GET /due/items/:aircraft.csv` and `.xlsx` hand the due list out.
 */
export function mountDueFiles(app: Express, { viewerOf, ...parts }: FileParts): void {
  const within = async (request: Request, work: (context: Context) => Promise<void>) => {
    const context = createContext({ ...parts, viewer: await viewerOf(request) });
    try {
      await work(context);
    } finally {
      await context.close();
    }
  };
  const taking = (
    address: string,
    take: (
      context: Context,
      given: { aircraftId: string; csv: string },
    ) => Promise<{ refused: readonly unknown[] }>,
  ) =>
    app.post(`/due/${address}/:aircraft`, (request, response) =>
      within(request, async (context) => {
        try {
          refuseForeignPage(request, 'A file');
          await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
          const aircraftId = keyOf('Aircraft', String(request.params['aircraft']), 'aircraft');
          await context.close();
          const csv = textOf(await bodyOf(request, response));
          const taken = await take(context, { aircraftId, csv });
          response
            .status(taken.refused.length > 0 ? 422 : 201)
            .set('cache-control', 'no-store')
            .json(taken);
        } catch (error) {
          // Bytes that nobody reads any more would hold up the next request on the same line.
          if (!request.complete) response.set('connection', 'close');
          request.resume();
          throw error;
        }
      }),
    );
  taking('flights', takeFlights);
  taking('items', importDue);

  const listOf = async (context: Context, id: string) => {
    await allow(context, 'front_desk', 'inspector', 'manager');
    const [list] = await dueListsOf(
      context.read,
      keyOf('Aircraft', id, 'aircraft'),
      await shopToday(context),
    );
    if (!list) throw notFound('aircraft');
    return { name: `due-${list.registration}`, rows: await dueRows(context.read, list) };
  };
  app.get('/due/items/:aircraft.csv', (request, response) =>
    within(request, async (context) => {
      const { name, rows } = await listOf(context, request.params.aircraft);
      headers(response, 'text/csv; charset=utf-8; header=present', `${name}.csv`);
      response.end([dueHead.map(textCell), ...rows].map(csvRecord).join(''));
    }),
  );
  app.get('/due/items/:aircraft.xlsx', (request, response) =>
    within(request, async (context) => {
      const { name, rows } = await listOf(context, request.params.aircraft);
      const data = [dueHead.map(bold), ...rows.map((row) => row.map(sheetCell))];
      const bytes = await writeXlsxFile([{ sheet: 'due', data, stickyRowsCount: 1 }]).toBuffer();
      headers(response, XLSX, `${name}.xlsx`);
      response.end(bytes);
    }),
  );
}

function textOf(bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refused('BAD_INPUT', 'The file is not UTF-8: save it as CSV, UTF-8.', 'csv');
  }
}

const headers = (response: Response, type: string, filename: string) =>
  void response.status(200).set({
    'content-type': type,
    'content-disposition': `attachment; filename="${filename.replace(/[^A-Za-z0-9.-]+/g, '-')}"`,
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    'cross-origin-resource-policy': 'same-origin',
  });
