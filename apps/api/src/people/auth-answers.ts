import type { Request, RequestHandler, Response } from 'express';
import { Refused, refusalCodes } from '../errors.ts';

/** The part of a body that is text, of a bounded length; empty where it is none. */
export const textIn = (body: unknown, name: string): string => {
  const value =
    typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' && value.length <= 1000 ? value : '';
};

export function refuse(response: Response, refused: Refused, code: string = refused.code): void {
  response
    .status(refusalCodes[refused.code].http)
    .json({ error: { code, message: refused.message } });
}

/** First in every route around signing in: nothing is kept by caches, and other sites may ask for nothing. */
export const fromOurPages =
  (origins: readonly string[]): RequestHandler =>
  (request: Request, response, next) => {
    response.set('cache-control', 'no-store');
    const { origin } = request.headers;
    if (origin === undefined || origins.includes(origin)) next();
    else
      refuse(
        response,
        new Refused('FORBIDDEN', 'This request came from another site, so it was not carried out.'),
        'FOREIGN_ORIGIN',
      );
  };
