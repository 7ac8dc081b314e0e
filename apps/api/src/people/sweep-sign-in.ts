import type pg from 'pg';

/**
 * Removes what is over: sessions and invitations past their end.
 *
 * @param pool connections in the role fairlead_identity
 * @returns how many rows were removed
 */
export async function sweepSignIn(pool: pg.Pool): Promise<number> {
  const sessions = await pool.query('delete from identity.session where expires_at <= now()');
  const invitations = await pool.query('delete from identity.invitation where expires_at <= now()');
  const again = await pool.query('delete from identity.sign_again where expires_at <= now()');
  return (again.rowCount ?? 0) + (sessions.rowCount ?? 0) + (invitations.rowCount ?? 0);
}
