import express, { type Express } from 'express';
import { Refused } from '../errors.ts';
import { fromOurPages, refuse, textIn } from './auth-answers.ts';
import { AccountRefused } from './create-account.ts';
import type { SignIn } from './sign-in.ts';

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
  app.use('/auth/invitation', fromOurPages(origins), express.json({ limit: '16kb' }));
  app.post('/auth/invitation', async (request, response) => {
    const invitation = await signIn.readInvitation(textIn(request.body, 'secret'));
    if (!invitation) refuse(response, opensNothing());
    else response.json(invitation);
  });
  app.post('/auth/invitation/accept', async (request, response) => {
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
