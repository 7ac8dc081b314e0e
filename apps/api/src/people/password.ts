export { hashPassword, verifyPassword } from 'better-auth/crypto';

/** NIST SP 800-63B asks for at least 8 characters and for letting people use at least 64. */
const SHORTEST_PASSWORD = 10;
const LONGEST_PASSWORD = 128;

/** What is wrong with a password that somebody chose; null where nothing is. */
export function passwordLack({ length }: string): string | null {
  return length < SHORTEST_PASSWORD || length > LONGEST_PASSWORD
    ? `The password has ${length} characters; it needs ${SHORTEST_PASSWORD} to ${LONGEST_PASSWORD}.`
    : null;
}

/** An e-mail address in the one form in which it is kept; null where it is none. */
export function emailAddress(given: string): string | null {
  const email = given.normalize('NFC').trim().toLowerCase();
  return /^[^\s@]+@[^\s@]+$/.test(email) && email.length <= 254 ? email : null;
}
