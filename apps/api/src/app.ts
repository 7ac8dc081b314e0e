import type { Server } from 'node:http';
import { ApolloServer, type ApolloServerPlugin } from '@apollo/server';
import { expressMiddleware } from '@as-integrations/express5';
import { createClient } from '@fairlead/database';
import express, { type ErrorRequestHandler, type Request, type Response } from 'express';
import pino from 'pino';
import { mountExemptions } from './books/exemption-routes.ts';
import { mountBooksExport } from './books/export/export-routes.ts';
import { type Context, createContext, type Viewer } from './context.ts';
import { type Env, smtpOf } from './env.ts';
import { formatError, refusalCodes, refusalFrom } from './errors.ts';
import { mountHistoryUploads } from './hindsight/upload-routes.ts';
import { globalId } from './ids.ts';
import { createShopNews } from './live/shop-news.ts';
import { mountStream } from './live/stream-route.ts';
import { mountOwner } from './owner/owner-routes.ts';
import { mountEInvoice } from './paper/e-invoice-route.ts';
import { mountPaper } from './paper/paper-routes.ts';
import { mountDevices } from './people/device-routes.ts';
import { mountInvitations } from './people/invitation-routes.ts';
import { mountSignAgain } from './people/sign-again-route.ts';
import { createSignIn } from './people/sign-in.ts';
import { mountMailFiles } from './post/mail-file-route.ts';
import { mountDueFeeds } from './programme/feed-routes.ts';
import { mountDueFiles } from './programme/files/file-routes.ts';
import { mountArchives } from './records/archive/archive-routes.ts';
import { schema } from './schema.ts';
import { mountCertificates } from './stores/document-routes.ts';
import { mountPhotos } from './work/photo-routes.ts';
import { mountUploads } from './work/upload-routes.ts';

export interface AppOptions extends Omit<Env, 'PORT'> {
  onQuery?: (sql: string) => void;
  now?: () => Date;
  log?: pino.Logger;
}

const RETRY_SECONDS = '3';

/** Everything the API is, without a port: the server and the tests both start from here. */
export async function createApp(options: AppOptions) {
  const log = options.log ?? pino({ level: 'info' });
  const client = createClient({
    url: options.DATABASE_URL,
    ...(options.onQuery && { onQuery: options.onQuery }),
  });
  const signIn = createSignIn({
    appUrl: options.DATABASE_URL,
    origins: [options.WEB_ORIGIN],
    secret: options.SIGN_IN_SECRET,
    secureCookies: options.WEB_ORIGIN.startsWith('https:'),
  });

  const news = createShopNews(options.DATABASE_URL);

  const apollo = new ApolloServer<Context>({
    schema,
    introspection: true,
    includeStacktraceInErrorResponses: false,
    csrfPrevention: true,
    // server.ts decides what a signal means; two of them stopping at once hang for seconds.
    stopOnTerminationSignals: false,
    parseOptions: { maxTokens: 6000 },
    formatError: formatError(
      (error, id) => log.error({ err: error, id }, 'unexpected'),
      () => crypto.randomUUID(),
    ),
    plugins: [requestEnd],
  });
  await apollo.start();

  const now = options.now ?? (() => new Date());
  const app = express();
  app.disable('x-powered-by');
  app.set('etag', false);
  // The web origin's server writes where it forwarded a request to, an address inside, into this header of the answer.
  // What is answered here takes its place.
  app.use((_request, response, next) => {
    response.setHeader('x-middleware-rewrite', '');
    // By this a device learns how far its own clock is off: milliseconds since 1970.
    response.setHeader('fairlead-time', String(now().getTime()));
    next();
  });

  app.get('/healthz', (_request, response) => void response.json({ ok: true }));
  app.get('/readyz', async (_request, response) => {
    try {
      await client.$queryRaw`SELECT 1`;
      response.json({ ok: true });
    } catch {
      unavailable(response);
    }
  });
  mountInvitations(app, signIn, [options.WEB_ORIGIN]);
  mountDevices(app, { signIn, client, origin: options.WEB_ORIGIN });
  mountSignAgain(app, signIn, options.WEB_ORIGIN);
  app.use('/auth', signIn.signInHandler);

  const viewerOf = async (request: Request): Promise<Viewer | null> => {
    const known = await signIn.identify(request.headers);
    if (!known) return null;
    // What somebody noted on a device is sent under their id: while another is signed in there, nobody is for it.
    const notedBy = request.headers['fairlead-person'];
    if (notedBy !== undefined && notedBy !== globalId('Person', known.personId)) return null;
    const { accountId, shopId, personId, deviceId } = known;
    return { accountId, shopId, personId, shared: deviceId !== null };
  };
  mountOwner(app, {
    client,
    news,
    uploadsDir: options.UPLOADS_DIR,
    webOrigin: options.WEB_ORIGIN,
    key: options.SIGN_IN_SECRET,
    ...(options.now && { now: options.now }),
  });
  mountPhotos(app, { client, viewerOf, uploadsDir: options.UPLOADS_DIR });
  mountHistoryUploads(app, {
    client,
    viewerOf,
    uploadsDir: options.UPLOADS_DIR,
    ...(options.now && { now: options.now }),
  });
  mountUploads(app, { client, viewerOf, uploadsDir: options.UPLOADS_DIR });
  const documents = {
    client,
    viewerOf,
    uploadsDir: options.UPLOADS_DIR,
    ...(options.now && { now: options.now }),
  };
  mountCertificates(app, documents);
  mountExemptions(app, documents);
  const paper = {
    client,
    viewerOf,
    uploadsDir: options.UPLOADS_DIR,
    webOrigin: options.WEB_ORIGIN,
    ...(options.now && { now: options.now }),
  };
  mountBooksExport(app, paper);
  mountMailFiles(app, paper);
  mountPaper(app, paper);
  mountEInvoice(app, paper);

  mountDueFiles(app, paper);
  mountDueFeeds(app, { client, ...(options.now && { now: options.now }) });
  mountArchives(app, {
    client,
    viewerOf,
    uploadsDir: options.UPLOADS_DIR,
    ...(options.now && { now: options.now }),
  });
  mountStream(app, { client, uploadsDir: options.UPLOADS_DIR, news, viewerOf });
  const sendsMail = smtpOf(options) !== null;
  app.use(
    '/graphql',
    express.json({ limit: '512kb' }),
    // Before Apollo, which would answer 500 where the database is away.
    async (request, response, next) => {
      response.locals['viewer'] = await viewerOf(request);
      next();
    },
    expressMiddleware(apollo, {
      context: async ({ res }) =>
        createContext({
          client,
          viewer: viewerIn(res),
          uploadsDir: options.UPLOADS_DIR,
          webOrigin: options.WEB_ORIGIN,
          sendsMail,
          ...(options.now && { now: options.now }),
        }),
    }),
  );
  app.use(
    (_request, response) =>
      void response
        .status(404)
        .json({ error: { code: 'NOT_FOUND', message: 'There is nothing at this address.' } }),
  );
  app.use(onError(log));

  return {
    app,
    client,
    signIn,
    /** Ends what would otherwise keep a connection open for ever. */
    endStreams: () => news.endAll(),
    async close() {
      await news.close();
      await apollo.stop();
      await client.$disconnect();
      await signIn.close();
    },
  };
}

/** Closes what a request opened, and gives its answer the status that its refusals ask for. */
const requestEnd: ApolloServerPlugin<Context> = {
  requestDidStart: async () => ({
    willSendResponse: async ({ contextValue, response, errors }) => {
      const failed = errors?.map((error) => error.extensions.code ?? refusalFrom(error)?.code);
      if (failed?.includes('UNAVAILABLE')) {
        response.http.status = refusalCodes.UNAVAILABLE.http;
        response.http.headers.set('retry-after', RETRY_SECONDS);
      }
      await contextValue.close();
    },
  }),
};

const viewerIn = (response: Response): Viewer | null =>
  (response.locals as { viewer?: Viewer | null }).viewer ?? null;

function unavailable(
  response: Response,
  message = 'The database does not answer just now; try again in a few seconds.',
): void {
  response
    .status(503)
    .set('retry-after', RETRY_SECONDS)
    .json({
      error: {
        code: 'UNAVAILABLE',
        message,
      },
    });
}

/** Express would print stacks; a refusal, a body that cannot be read and a fault of ours each get one JSON sentence. */
const onError =
  (log: pino.Logger): ErrorRequestHandler =>
  (error: unknown, _request, response, next) => {
    if (response.headersSent) return next(error);
    const refused = refusalFrom(error);
    if (refused?.code === 'UNAVAILABLE') return unavailable(response, refused.message);
    const status = refused ? refusalCodes[refused.code].http : statusOf(error);
    if (status >= 500) log.error({ err: error }, 'unexpected');
    const message =
      refused?.message ??
      (status === 413
        ? 'The request is too big.'
        : status < 500
          ? 'The request cannot be read: it is not valid JSON.'
          : 'Something went wrong on our side. It is noted.');
    response.status(status).json({
      error: {
        code:
          refused?.code ?? (status === 413 ? 'TOO_LARGE' : status < 500 ? 'BAD_INPUT' : 'INTERNAL'),
        message,
      },
    });
  };

const statusOf = (error: unknown) =>
  typeof error === 'object' &&
  error !== null &&
  'status' in error &&
  typeof error.status === 'number'
    ? error.status
    : 500;

/** Resolves when the server listens; the port is the one asked for, or a free one for 0. */
export function listen(app: express.Express, port: number, host = '127.0.0.1'): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = app.listen(port, host, (error?: Error) =>
      error ? reject(error) : resolve(server),
    );
    // Longer than the 5 s for which the web server keeps a silent connection, so that this side never
    // closes one in the moment in which a request is sent on it.
    server.keepAliveTimeout = 65_000;
  });
}
