import { createHash, randomBytes } from 'node:crypto';
import { hashPassword, verifyPassword } from 'better-auth/crypto';
import type pg from 'pg';
import { Refused } from '../errors.ts';
import { digestOf } from './identity-adapter.ts';

/** A shift, and what may be put on its end. */
const SESSION_HOURS = 12;
/** Wrong tries of one person on one device, after which they wait. A PIN of six digits then takes years to guess. */
const MOST_TRIES = 5;
const LOCKED_MINUTES = 15;

export interface SharedDevice {
  id: string;
  name: string;
  registeredAt: Date;
}

/** What is shown on a shared device: a name and its PIN, or a badge alone. */
export type QuickKey = { accountId: string; pin: string } | { badge: string };

/** A badge's secret as it is printed: 128 random bits. */
export const newBadge = (): string => randomBytes(16).toString('base64url');
const badgeDigest = (badge: string) => createHash('sha256').update(badge).digest('hex');

/** @throws Refused for what is no PIN, or one that everybody tries first */
export function refuseWeakPin(pin: string): void {
  if (!/^\d{6}$/.test(pin)) throw new Refused('BAD_INPUT', 'A PIN has six digits.', 'pin');
  const steps = new Set(
    [...pin].slice(1).map((digit, index) => Number(digit) - Number(pin[index])),
  );
  const [step = 9] = steps;
  if (steps.size === 1 && Math.abs(step) <= 1)
    throw new Refused(
      'BAD_INPUT',
      'Six digits that are all the same, or count up or down, are what everybody tries first: choose others.',
      'pin',
    );
}

/** Shared devices and what opens them, over connections in the role fairlead_identity. */
export function sharedDevices(pool: pg.Pool) {
  return {
    /** Registers the device that asks. Returns the token for its cookie, told once. */
    async register(shopId: string, personId: string, name: string): Promise<string> {
      const token = randomBytes(32).toString('base64url');
      await pool.query(
        'insert into identity.device (shop_id, name, token, registered_by) values ($1, $2, $3, $4)',
        [shopId, name, digestOf(token), personId],
      );
      return token;
    },

    async list(shopId: string): Promise<SharedDevice[]> {
      const { rows } = await pool.query<SharedDevice>(
        `select id, name, registered_at as "registeredAt" from identity.device
          where shop_id = $1 order by registered_at`,
        [shopId],
      );
      return rows;
    },

    /** Ends a registration and every session on the device. False where the shop has no such device. */
    async end(shopId: string, id: string): Promise<boolean> {
      const { rowCount } = await pool.query(
        'delete from identity.device where shop_id = $1 and id::text = $2',
        [shopId, id],
      );
      return rowCount === 1;
    },

    /** The device of a cookie, and who may sign in on it by PIN; null for a cookie that is none. */
    async known(token: string) {
      const { rows } = await pool.query<{ id: string; name: string; shopId: string }>(
        'select id, name, shop_id as "shopId" from identity.device where token = $1',
        [digestOf(token)],
      );
      const [device] = rows;
      if (!device) return null;
      const people = await pool.query<{ accountId: string; name: string }>(
        `select a.id as "accountId", a.name from identity.membership m
           join identity.account a on a.id = m.account_id
           join identity.quick_key k on k.account_id = a.id and k.kind = 'pin'
          where m.shop_id = $1 order by a.name`,
        [device.shopId],
      );
      return { ...device, people: people.rows };
    },

    async setPin(accountId: string, pin: string): Promise<void> {
      refuseWeakPin(pin);
      await setKey(pool, accountId, 'pin', await hashPassword(pin));
    },

    /** Makes somebody a new badge; one printed before opens nothing any more. Null where they have no sign-in. */
    async makeBadge(shopId: string, personId: string): Promise<string | null> {
      const { rows } = await pool.query<{ accountId: string }>(
        'select account_id as "accountId" from identity.membership where shop_id = $1 and person_id = $2',
        [shopId, personId],
      );
      const [member] = rows;
      if (!member) return null;
      const badge = newBadge();
      await setKey(pool, member.accountId, 'badge', badgeDigest(badge));
      return badge;
    },

    /**
     * Opens a session on a shared device.
     *
     * @returns the session's token and its seconds
     * @throws Refused for a wrong key, or while the device or the person is locked
     */
    async open(device: { id: string; shopId: string }, key: QuickKey) {
      const named = 'accountId' in key ? key.accountId : null;
      await refuseLocked(pool, device.id, named);
      const accountId =
        'badge' in key
          ? await accountOfBadge(pool, device.shopId, key.badge)
          : (await pinIsRight(pool, device.shopId, key))
            ? key.accountId
            : null;
      if (accountId === null) {
        const left = await countWrong(pool, device.id, named);
        const what = named === null ? 'This badge opens nothing here' : 'This is not their PIN';
        throw new Refused(
          'SIGN_IN_NEEDED',
          left === 0
            ? `${what}. That was the last try: wait ${LOCKED_MINUTES} min, or sign in with the password.`
            : `${what}. ${left} more ${left === 1 ? 'try' : 'tries'}.`,
        );
      }
      const token = randomBytes(32).toString('base64url');
      await pool.query(
        `with right_again as (
           delete from identity.quick_tries where device_id = $2 and account_id is not distinct from $4::uuid
         )
         insert into identity.session (account_id, token, expires_at, ip_address, user_agent, device_id)
         values ($1, $3, now() + make_interval(hours => $5), '', 'shared device', $2)`,
        [accountId, device.id, digestOf(token), named, SESSION_HOURS],
      );
      return { token, seconds: SESSION_HOURS * 3600 };
    },
  };
}

export type SharedDevices = ReturnType<typeof sharedDevices>;

async function setKey(pool: pg.Pool, accountId: string, kind: string, digest: string) {
  await pool.query(
    `insert into identity.quick_key (account_id, kind, digest) values ($1, $2, $3)
     on conflict (account_id, kind) do update set digest = excluded.digest, set_at = now()`,
    [accountId, kind, digest],
  );
}

async function accountOfBadge(pool: pg.Pool, shopId: string, badge: string) {
  const { rows } = await pool.query<{ accountId: string }>(
    `select k.account_id as "accountId" from identity.quick_key k
       join identity.membership m on m.account_id = k.account_id and m.shop_id = $1
      where k.kind = 'badge' and k.digest = $2`,
    [shopId, badgeDigest(badge)],
  );
  return rows[0]?.accountId ?? null;
}

async function pinIsRight(
  pool: pg.Pool,
  shopId: string,
  { accountId, pin }: { accountId: string; pin: string },
): Promise<boolean> {
  const { rows } = await pool.query<{ digest: string }>(
    `select k.digest from identity.quick_key k
       join identity.membership m on m.account_id = k.account_id and m.shop_id = $1
      where k.kind = 'pin' and k.account_id::text = $2`,
    [shopId, accountId],
  );
  const digest = rows[0]?.digest;
  return digest !== undefined && (await verifyPassword({ hash: digest, password: pin }));
}

async function refuseLocked(pool: pg.Pool, deviceId: string, accountId: string | null) {
  const { rows } = await pool.query<{ seconds: number }>(
    `select ceil(extract(epoch from locked_until - now()))::int as seconds from identity.quick_tries
      where device_id = $1 and account_id::text is not distinct from $2 and locked_until > now()`,
    [deviceId, accountId],
  );
  const [locked] = rows;
  if (locked)
    throw new Refused(
      'FORBIDDEN',
      `Too many wrong tries on this device: wait ${Math.ceil(locked.seconds / 60)} min, or sign in with the password.`,
    );
}

/** Counts one wrong try. Returns how many are left; at none the device is locked for this person, or for badges. */
async function countWrong(
  pool: pg.Pool,
  deviceId: string,
  accountId: string | null,
): Promise<number> {
  const { rows } = await pool.query<{ failed: number }>(
    `insert into identity.quick_tries as t (device_id, account_id, failed)
       select $1, m.account_id, 1 from (select $2::text as asked) a
         left join identity.membership m on m.account_id::text = a.asked
        where a.asked is null or m.account_id is not null
     on conflict on constraint quick_tries_key do update set
       failed = case when t.locked_until <= now() then 1 else t.failed + 1 end,
       locked_until = case when t.locked_until is null and t.failed + 1 >= $3
         then now() + make_interval(mins => $4) end
     returning failed`,
    [deviceId, accountId, MOST_TRIES, LOCKED_MINUTES],
  );
  return Math.max(0, MOST_TRIES - (rows[0]?.failed ?? 0));
}
