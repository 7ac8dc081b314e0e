import express, { type Express } from 'express';
import { Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { fromOurPages, refuse, textIn } from './auth-answers.ts';
import type { SignIn } from './sign-in.ts';

const LONGEST_TEXT = 100_000;

/** `POST /auth/again` {password, orderId, bookId, text} answers {again}: what signing that one entry asks for. */
export function mountSignAgain(app: Express, signIn: SignIn, origin: string): void {
  app.post(
    '/auth/again',
    fromOurPages([origin]),
    express.json({ limit: '512kb' }),
    async (request, response) => {
      try {
        const known = await signIn.identify(request.headers);
        if (!known)
          throw new Refused('SIGN_IN_NEEDED', 'Sign in first: this is for the people of the shop.');
        if (known.deviceId !== null)
          throw new Refused(
            'FORBIDDEN',
            'Nothing was signed: a PIN or badge on a shared device signs no entry. Sign in with your password on a device of your own.',
          );
        const body = request.body as Record<string, unknown> | undefined;
        const { text } = body ?? {};
        if (typeof text !== 'string' || text.length > LONGEST_TEXT)
          throw new Refused(
            'BAD_INPUT',
            `text is what is to be signed, at most ${LONGEST_TEXT} characters.`,
          );
        const again = await signIn.signAgain(known.accountId, textIn(body, 'password'), {
          orderId: keyOf('WorkOrder', textIn(body, 'orderId'), 'orderId'),
          bookId: keyOf('RecordBook', textIn(body, 'bookId'), 'bookId'),
          text,
        });
        response.json({ again });
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        refuse(response, error);
      }
    },
  );
}
