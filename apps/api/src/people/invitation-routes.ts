import express, { type Express, type Request, type Response } from 'express';
import { Refused, refusalCodes } from '../errors.ts';
import { AccountRefused } from './create-account.ts';
import type { SignIn } from './sign-in.ts';

/** The part of a body that is text, of a bounded length; empty where it is none. */
const textIn = (body: unknown, name: string): string => {
  const value =
    typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' && value.length <= 1000 ? value : '';
};

function refuse(response: Response, refused: Refused, code: string = refused.code): void {
  response
    .status(refusalCodes[refused.code].http)
    .json({ error: { code, message: refused.message } });
}

const opensNothing = () =>
  new Refused(
    'NOT_FOUND',
    'This invitation opens nothing: it was used, it has run out, or it was taken back. Ask the manager of your shop for another.',
  );

/**
 * What somebody outside can do with the secret of an invitation: see whom it is for, and choose a password. The secret
 * travels in the body, never in an address, and nothing is done by opening a page.
 */
export function mountInvitations(app: Express, signIn: SignIn, origins: readonly string[]): void {
  const body = express.json({ limit: '16kb' });
  const guard = (request: Request, response: Response): boolean => {
    response.set('cache-control', 'no-store');
    const { origin } = request.headers;
    if (origin === undefined || origins.includes(origin)) return true;
    refuse(
      response,
      new Refused('FORBIDDEN', 'This request came from another site, so it was not carried out.'),
      'FOREIGN_ORIGIN',
    );
    return false;
  };

  app.post('/auth/invitation', body, async (request, response) => {
    if (!guard(request, response)) return;
    const invitation = await signIn.readInvitation(textIn(request.body, 'secret'));
    if (!invitation) refuse(response, opensNothing());
    else response.json(invitation);
  });
  app.post('/auth/invitation/accept', body, async (request, response) => {
    if (!guard(request, response)) return;
    try {
      const accepted = await signIn.acceptInvitation(
        textIn(request.body, 'secret'),
        textIn(request.body, 'password'),
      );
      if (!accepted) refuse(response, opensNothing());
      else response.json(accepted);
    } catch (error) {
      if (!(error instanceof AccountRefused)) throw error;
      const code = error.reason === 'password_length' ? 'BAD_INPUT' : 'CONFLICT';
      refuse(response, new Refused(code, error.message));
    }
  });
}
