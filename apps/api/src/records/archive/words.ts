import type { Seal } from '@fairlead/proof';

/** What an archive proves and does not: on its page, in its README and beside the button. */
export const archiveProves = [
  'No byte of it was changed, added, taken out or put in another order since it was sealed, and its end is there.',
  'Every entry and decision was signed with the key that it names, and names the one before it: nothing can be slipped in, taken out or rewritten later without that key.',
  'A photo is the one that was there when the entry was signed.',
];
export const archiveDoesNotProve = [
  "Whose the key is: anybody can make one. The fingerprint of the shop's key is printed on each of its entries; compare it.",
  'That what was signed is true, that the aircraft is airworthy, or that all work was entered.',
  'That nothing was signed after it was sealed: an older archive holds as well.',
  'What whoever holds the key wrote: they could write a whole chain anew. Entries printed before would show another hash.',
];

export const readme = (
  { aircraft, shop, madeAt }: Pick<Seal, 'aircraft' | 'shop' | 'madeAt'>,
  fingerprint: string,
) => `Maintenance records of ${aircraft.registration}, serial ${aircraft.serial} (${aircraft.maker} ${aircraft.model})
as ${shop.name}, ${shop.place}, kept them; sealed ${madeAt}.

  entries-….pdf     for people: entries and decisions in order
  records.jsonl     for machines: one link of the chain a line, JSON as RFC 8785 writes it, each signed (Ed25519, RFC 8032)
  attachments/      the photos, each named by its SHA-256
  keys.jsonl        where the shop's key was replaced: how one took over from the other, signed
  received/         archives that came with the aircraft from other shops, as they came
  seal.json         what is in here, in which order, with its digests; signed

Sealed with the key ${fingerprint}
(thumbprint of RFC 7638). It is printed on each entry of the shop.

To check it, in a copy of Fairlead, without a server:
  npm run --silent records -- verify THIS.tar --keys ${fingerprint}

What it proves:
${archiveProves.map((line) => `  - ${line}`).join('\n')}
What it does not prove:
${archiveDoesNotProve.map((line) => `  - ${line}`).join('\n')}

The owner keeps the records of 14 CFR 91.417 and hands them over with the aircraft (91.419). A file is not accepted
everywhere in place of a signed paper: ask the local office.
`;
