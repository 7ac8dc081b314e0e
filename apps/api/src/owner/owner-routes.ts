import { type Client, inLink } from '@fairlead/database';
import express, { type Express, type Request, type Response } from 'express';
import { notFound, Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import type { ShopNews } from '../live/index.ts';
import { type PhotoSize, photoFile, photoSizes, sendPhoto } from '../work/index.ts';
import { decideByLink, type FormAnswer } from './decide-by-link.ts';
import { stateOf, streamNews } from './owner-news.ts';
import { promiseNow } from './promise-part.ts';
import { readPage } from './read-page.ts';
import { hashOf, sealOf, unsealed } from './secret.ts';

export interface OwnerParts {
  client: Client;
  news: ShopNews;
  uploadsDir: string;
  webOrigin: string;
  /** Seals the sentences that go from an answer to the page. */
  key: string;
  now?: () => Date;
}

const form = express.urlencoded({ extended: false, limit: '16kb', parameterLimit: 20 });

/** One sentence for a link that was guessed, has run out or was taken back: which of them it is, nobody learns. */
const opensNothing = () =>
  new Refused(
    'NOT_FOUND',
    'This link opens nothing: it was mistyped, has run out or was taken back. Ask the shop for a new one.',
  );

/**
 * What an owner's private link opens: `GET /owner/:secret` the page's figures (`HEAD` whether it opens), `GET …/photos/:id/:size` the photos of
 * its findings, `GET …/news` tells when it is another, `POST …/decisions` an answer. Looking decides nothing: mail scanners follow links.
 */
export function mountOwner(app: Express, parts: OwnerParts): void {
  const { client, news, uploadsDir, webOrigin, key, now = () => new Date() } = parts;

  app.use('/owner', (_request, response, next) => {
    response.set({
      'cache-control': 'no-store',
      'referrer-policy': 'no-referrer',
      'x-robots-tag': 'noindex, nofollow',
    });
    next();
  });

  // Whether a link opens, for the web server, which answers 404 itself: nothing is read for it.
  app.head('/owner/:secret', async (request, response) => {
    const opened = await inLink(client, hashOf(request.params.secret), async () => true);
    if (!opened) throw opensNothing();
    response.end();
  });

  app.get('/owner/:secret', async (request, response) => {
    const { secret } = request.params;
    const opened = await inLink(client, hashOf(secret), async (tx, link) => ({
      link,
      page: await readPage(tx, link.contactId, now()),
    }));
    if (!opened) throw opensNothing();
    const { page, link } = opened;
    const promise = await promiseNow(client, link, now());
    response.json({
      ...page,
      state: stateOf(page),
      order: page.order && { ...page.order, promise },
      note: unsealed(key, secret, request.query as never),
    });
  });

  app.get('/owner/:secret/news', async (request, response) => {
    const { state } = request.query;
    const shown = typeof state === 'string' ? state.slice(0, 64) : '';
    const exchange = { request, response };
    if (!(await streamNews({ client, news, now }, request.params.secret, shown, exchange)))
      throw opensNothing();
  });

  app.post('/owner/:secret/decisions', form, async (request, response) => {
    const { secret } = request.params;
    refuseForeign(request, webOrigin);
    const page = `/owner/${encodeURIComponent(secret)}`;
    try {
      const number = await decideByLink(
        { client, uploadsDir },
        secret,
        formOf(request.body),
        now(),
      );
      // The page itself says that the link opens nothing.
      back(response, number === null ? page : `${page}#offer-${number}`);
    } catch (error) {
      if (!(error instanceof Refused) || error.code === 'UNAVAILABLE') throw error;
      const note = error.message;
      const query = new URLSearchParams({ note, seal: sealOf(key, secret, note) });
      back(response, `${page}?${query.toString()}`);
    }
  });

  app.get('/owner/:secret/photos/:id/:size', async (request, response) => {
    const { secret, id, size } = request.params;
    const photo = await inLink(client, hashOf(secret), async (tx) => ({
      row: await tx.photo.findUnique({
        where: { id: keyOf('Photo', id, 'id') },
        select: { shopId: true, sha256: true, mime: true },
      }),
    }));
    if (!photo) throw opensNothing();
    if (!photo.row || !Object.hasOwn(photoSizes, size)) throw notFound('photo');
    const { shopId, sha256, mime } = photo.row;
    await sendPhoto(response, uploadsDir, photoFile(shopId, sha256, size as PhotoSize), {
      mime,
      cacheControl: 'no-store',
    });
  });
}

const back = (response: Response, to: string) => void response.status(303).location(to).end();

/**
 * An answer comes from the page itself. The page sends no referrer, so browsers send `Origin: null` with its forms and
 * say in Sec-Fetch-Site where they come from; over plain HTTP they say nothing. The secret is in the address, so a
 * foreign page cannot know where to send a form at all: what is refused here is what says itself that it is foreign.
 */
function refuseForeign(request: Request, webOrigin: string): void {
  const site = request.get('sec-fetch-site');
  const origin = request.get('origin') ?? 'null';
  const foreign =
    site === undefined ? origin !== 'null' && origin !== webOrigin : site !== 'same-origin';
  if (foreign)
    throw new Refused(
      'FORBIDDEN',
      `An answer is given on the owner's page itself; this one came from ${site === undefined ? origin.slice(0, 80) : `a ${site.slice(0, 20)} page`}.`,
    );
}

/** Each field once, as text; one that is missing is empty. */
function formOf(body: unknown): FormAnswer {
  const given = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
  const field = (name: string) => {
    const value = given[name];
    return typeof value === 'string' ? value.slice(0, 400) : '';
  };
  return {
    quote: field('quote'),
    revision: field('revision'),
    shown: field('shown'),
    choice: field('choice'),
    ceiling: field('ceiling'),
  };
}
