import { domainToASCII } from 'node:url';
import { Refused } from './errors.ts';

/** Characters of a dot-atom (RFC 5322, 3.2.3). Quoted local parts are not taken: nobody's address needs one. */
const local = /^[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+(\.[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+)*$/;
const label = /^[A-Za-z0-9]([A-Za-z0-9-]{0,61}[A-Za-z0-9])?$/;

/**
 * One e-mail address in the form in which it is kept: a dot-atom, at most 64 octets before the @ and 254 in all (RFC 5321,
 * 4.5.3.1, with RFC 3696's erratum 1690 for the whole). A domain in other letters is kept in its ASCII form.
 *
 * @returns null where it is none, or more than one
 */
export function mailAddress(given: string): string | null {
  const [before = '', domain = '', ...more] = given.normalize('NFC').trim().split('@');
  if (more.length > 0 || before.length > 64 || !local.test(before)) return null;
  const ascii = domainToASCII(domain);
  const address = `${before}@${ascii}`;
  return ascii.split('.').every((each) => label.test(each)) && address.length <= 254
    ? address
    : null;
}

/** An e-mail address as somebody typed it; null where they typed none. */
export function givenMailAddress(given: string | null | undefined, field: string): string | null {
  const typed = (given ?? '').trim();
  if (typed === '') return null;
  const address = mailAddress(typed);
  if (address === null)
    throw new Refused(
      'BAD_INPUT',
      `${field} is "${typed.slice(0, 80)}": needed is one e-mail address, such as desk@shop.example.`,
      field,
    );
  return address;
}
