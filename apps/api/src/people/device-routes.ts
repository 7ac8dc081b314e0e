import type { Client } from '@fairlead/database';
import express, { type Express, type Request, type RequestHandler } from 'express';
import qrcode from 'qrcode';
import { allow, createContext } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { fromOurPages, refuse, textIn } from './auth-answers.ts';
import type { QuickKey } from './shared-device.ts';
import type { SignIn } from './sign-in.ts';

const DEVICE_SECONDS = 400 * 86_400;

interface Parts {
  signIn: SignIn;
  client: Client;
  origin: string;
}

/**
 * A hangar's shared tablet: the manager registers it while signed in on it; people then change on it by PIN or badge. What
 * such a session may do is in context.ts.
 */
export function mountDevices(app: Express, { signIn, client, origin }: Parts): void {
  const { devices } = signIn;
  const guard = [fromOurPages([origin]), express.json({ limit: '16kb' })];
  /** Routes answer with what they throw, as the other ways of signing in do. */
  const route =
    (work: (request: Request, response: express.Response) => Promise<unknown>): RequestHandler =>
    async (request, response) => {
      try {
        response.json(await work(request, response));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        refuse(response, error);
      }
    };
  const signedIn = async (request: Request) => {
    const known = await signIn.identify(request.headers);
    if (!known)
      throw new Refused('SIGN_IN_NEEDED', 'Sign in first: this is for the people of the shop.');
    return { ...known, shared: known.deviceId !== null };
  };
  const manager = async (request: Request) => {
    const viewer = await signedIn(request);
    const context = createContext({ client, viewer, uploadsDir: '' });
    try {
      return await allow(context, 'manager');
    } finally {
      await context.close();
    }
  };
  const here = (request: Request) => {
    const token = signIn.tokenOf(request.headers, 'device');
    return token === null ? null : devices.known(token);
  };

  app.get(
    '/auth/device',
    guard,
    route(async (request) => ({ device: await here(request) })),
  );
  app.get(
    '/auth/devices',
    guard,
    route(async (request) => {
      const { shopId } = await manager(request);
      return { devices: await devices.list(shopId) };
    }),
  );
  app.post(
    '/auth/device',
    guard,
    route(async (request, response) => {
      const { shopId, personId } = await manager(request);
      const name = textIn(request.body, 'name').trim();
      if (name.length < 2 || name.length > 60)
        throw new Refused(
          'BAD_INPUT',
          `The device’s name has ${name.length} characters: needed are 2 to 60, such as “Tablet by stand 2”.`,
          'name',
        );
      const token = await devices.register(shopId, personId, name);
      response.append('set-cookie', signIn.cookieOf('device', token, DEVICE_SECONDS));
      return { name };
    }),
  );
  app.post(
    '/auth/device/end',
    guard,
    route(async (request) => {
      const { shopId } = await manager(request);
      if (!(await devices.end(shopId, textIn(request.body, 'id')))) throw notFound('device');
      return { ended: true };
    }),
  );
  app.post(
    '/auth/pin',
    guard,
    route(async (request) => {
      const { accountId, shared } = await signedIn(request);
      if (shared)
        throw new Refused('FORBIDDEN', 'Sign in with your password to choose another PIN.');
      await devices.setPin(accountId, textIn(request.body, 'pin'));
      return { set: true };
    }),
  );
  app.post(
    '/auth/badge',
    guard,
    route(async (request) => {
      const { shopId } = await manager(request);
      const personId = keyOf('Person', textIn(request.body, 'personId'), 'personId');
      const badge = await devices.makeBadge(shopId, personId);
      if (badge === null)
        throw new Refused(
          'AGAINST_RULE',
          'Whoever has no sign-in gets no badge: invite them first.',
          'personId',
        );
      return {
        badge,
        svg: await qrcode.toString(badge, { type: 'svg', errorCorrectionLevel: 'M' }),
      };
    }),
  );
  app.post(
    '/auth/quick',
    guard,
    route(async (request, response) => {
      const device = await here(request);
      if (!device)
        throw new Refused(
          'FORBIDDEN',
          'This device is not registered: the manager does that, or sign in with the password.',
        );
      const { token, seconds } = await devices.open(device, keyIn(request.body));
      response.append('set-cookie', signIn.cookieOf('session_token', token, seconds));
      return { ok: true };
    }),
  );
}

function keyIn(body: unknown): QuickKey {
  const [badge, accountId, pin] = ['badge', 'accountId', 'pin'].map((name) => textIn(body, name));
  if (badge) return { badge };
  if (accountId && pin) return { accountId, pin };
  throw new Refused('BAD_INPUT', 'Needed is a badge, or somebody’s name and their PIN.');
}
