import type { Express, Request } from 'express';
import { type DocumentNode, getOperationAST, parse } from 'graphql';
import { createHandler } from 'graphql-sse/lib/use/express';
import { type ContextParts, createContext, type Viewer } from '../context.ts';
import { Refused } from '../errors.ts';
import { schema } from '../schema.ts';
import type { News, ShopNews } from './shop-news.ts';

type Parts = Pick<ContextParts, 'client' | 'uploadsDir'> & {
  news: ShopNews;
  viewerOf: (request: Request) => Promise<Viewer | null>;
};

const LONGEST_DOCUMENT = 2000;

/**
 * `GET /graphql/stream?query=subscription…`: server-sent events as graphql-sse's distinct connections have them. Only
 * subscriptions run here. Who reads is asked anew before each event, so a stream ends with the session.
 */
export function mountStream(app: Express, { client, uploadsDir, news, viewerOf }: Parts): void {
  const handle = createHandler({
    schema,
    // One connection, one subscription: a token would open the other mode of the protocol.
    authenticate: () => null,
    onSubscribe: (_request, { query, operationName }) => {
      const operation = getOperationAST(documentOf(query), operationName);
      if (operation?.operation !== 'subscription')
        throw new Refused('BAD_INPUT', 'Only a subscription can be streamed; ask /graphql.');
    },
    context: (request) => {
      const raw = request.raw as Request;
      const viewer = raw.res?.locals['viewer'] as Viewer;
      return {
        ...createContext({ client, viewer, uploadsDir }),
        news: async () => {
          const stream = await news.of(viewer.shopId);
          // A generator that waits cannot be left from outside: what it waits for ends instead.
          raw.once('close', () => void stream.return?.());
          return watched(stream, viewer, () => viewerOf(raw));
        },
      };
    },
  });
  app.get('/graphql/stream', async (request, response) => {
    const viewer = await viewerOf(request);
    if (!viewer)
      throw new Refused('SIGN_IN_NEEDED', 'Sign in first: this is for the people of the shop.');
    response.locals['viewer'] = viewer;
    await handle(request, response);
  });
}

function documentOf(query: unknown): DocumentNode {
  try {
    return parse(String(query).slice(0, LONGEST_DOCUMENT), { maxTokens: 200 });
  } catch {
    throw new Refused('BAD_INPUT', 'The subscription cannot be read as GraphQL.');
  }
}

/** News for as long as the same person is signed in. */
async function* watched(
  stream: AsyncIterable<News>,
  { shopId, personId }: Viewer,
  identify: () => Promise<Viewer | null>,
): AsyncGenerator<News> {
  for await (const each of stream) {
    const now = await identify();
    if (now?.shopId !== shopId || now.personId !== personId) return;
    yield each;
  }
}
