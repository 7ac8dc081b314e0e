import { randomUUID } from 'node:crypto';
import { type Client, inShop, lazyReader, type Role, type Tx } from '@fairlead/database';
import { Refused, refusalFrom } from './errors.ts';

/** The person signed in, as the shop knows them. */
export interface Viewer {
  accountId: string;
  shopId: string;
  personId: string;
  /** Signed in by a PIN or a badge on a shared device: for work at the bench, and for nothing else. */
  shared: boolean;
}

/** What a request carries. Nothing in it is global. */
export interface Context {
  viewer: Viewer | null;
  requestId: string;
  /** Reads, in one read-only transaction of this request, opened by the first of them. Needs a sign-in. */
  read: Tx;
  /** One short transaction that commits what `work` did, or none of it. Needs a sign-in. */
  write<T>(work: (tx: Tx) => Promise<T>): Promise<T>;
  /** The roles of the person signed in; asked once a request. */
  roles(): Promise<readonly Role[]>;
  now(): Date;
  uploadsDir: string;
  /** The one address that browsers use. */
  webOrigin: string;
  /** Whether a mail server is set: where none is, mails are kept and shown. */
  sendsMail: boolean;
  /** What changes in the shop from now on; only where a stream carries it. */
  news?: () => Promise<AsyncIterable<ReadonlySet<string>>>;
  close(): Promise<void>;
}

export interface ContextParts {
  client: Client;
  viewer: Viewer | null;
  uploadsDir: string;
  webOrigin?: string;
  sendsMail?: boolean;
  now?: () => Date;
}

export function createContext({
  client,
  viewer,
  uploadsDir,
  webOrigin = '',
  sendsMail = false,
  now = () => new Date(),
}: ContextParts): Context {
  const requestId = randomUUID();
  const scope = () => {
    if (!viewer)
      throw new Refused('SIGN_IN_NEEDED', 'Sign in first: this is for the people of the shop.');
    return { shopId: viewer.shopId, personId: viewer.personId, requestId };
  };
  const lazy = lazyReader(client, scope);
  let roles: Promise<readonly Role[]> | null = null;
  return {
    viewer,
    requestId,
    read: lazy.reader,
    async write(work) {
      // A request never holds two connections: as many requests as there are connections, each waiting for
      // its second, would all wait in vain.
      await lazy.close();
      try {
        return await inShop(client, scope(), work);
      } catch (error) {
        throw refusalFrom(error) ?? error;
      }
    },
    roles() {
      roles ??= lazy.reader.person
        .findUnique({
          where: { id: viewer?.personId ?? '' },
          select: { roles: true, active: true },
        })
        .then((person) => (person?.active ? rolesHere(person.roles, viewer?.shared ?? false) : []));
      return roles;
    },
    now,
    uploadsDir,
    webOrigin,
    sendsMail,
    close: lazy.close,
  };
}

/** On a shared device whoever works at the bench is a mechanic: a PIN signs no entry and sets no rule. */
function rolesHere(roles: readonly Role[], shared: boolean): readonly Role[] {
  if (!shared) return roles;
  return roles.some((role) => role !== 'front_desk') ? ['mechanic'] : [];
}

const roleWords: Record<Role, string> = {
  front_desk: 'the front desk',
  mechanic: 'a mechanic',
  inspector: 'an inspector',
  manager: 'the manager',
};

/** First line of a use-case: throws unless the person signed in has one of the roles. */
export async function allow(context: Context, ...needed: [Role, ...Role[]]): Promise<Viewer> {
  if (!context.viewer)
    throw new Refused('SIGN_IN_NEEDED', 'Sign in first: this is for the people of the shop.');
  const has = await context.roles();
  if (!needed.some((role) => has.includes(role)))
    throw new Refused(
      'FORBIDDEN',
      `This is for ${needed.map((role) => roleWords[role]).join(' or ')}; you are signed in as ${has.map((role) => roleWords[role]).join(' and ') || 'somebody without a role'}${context.viewer.shared ? ' on a shared device; sign in with your password for more' : ''}.`,
    );
  return context.viewer;
}
