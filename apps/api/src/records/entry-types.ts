import { cautionsOn, type MissingElement } from '@fairlead/airworthiness';
import {
  CertificateKind,
  type EntryRule,
  FindingClass,
  InspectionKind,
  ReleaseOutcome,
} from '@fairlead/database';
import { builder } from '../builder.ts';
import { chainHash } from '../evidence.ts';
import { globalId } from '../ids.ts';
import type { PreparedEntry } from './compose.ts';
import type { Prepared } from './prepare.ts';

const EntryRuleType = builder.enumType('EntryRule', {
  description: 'Which paragraph an entry is made under.',
  values: {
    maintenance: { description: 'Work performed: 14 CFR 43.9.' },
    inspection: { description: 'An inspection, with the work beside it: 14 CFR 43.11.' },
  } satisfies Record<EntryRule, object>,
});

const Missing = builder.objectRef<MissingElement>('MissingElement').implement({
  description: 'Something that an entry lacks before it may be signed.',
  fields: (t) => ({
    paragraph: t.exposeString('paragraph', {
      description: 'Paragraph that asks for it, or "shop rule".',
    }),
    what: t.exposeString('what', { description: 'What is missing.' }),
    remedy: t.exposeString('remedy', { description: 'What to do.' }),
  }),
});

const Listed = builder.objectRef<PreparedEntry['listed'][number]>('ListedFinding').implement({
  description: 'A finding as it goes on the list of 14 CFR 43.11(b).',
  fields: (t) => ({
    class: t.expose('class', { type: FindingClass, description: 'Its class.' }),
    words: t.exposeString('words', { description: 'What the list says.' }),
    inoperative: t.exposeBoolean('inoperative', {
      description: 'Left inoperative and placarded, as 14 CFR 91.213(d) permits.',
    }),
  }),
});

const DraftItem = builder.objectRef<Prepared['belong'][number]>('EntryDraftItem').implement({
  description: 'A finished item that could stand in an entry.',
  fields: (t) => ({
    itemId: t.id({ description: 'The item.', resolve: ({ id }) => globalId('WorkItem', id) }),
    position: t.exposeInt('position', { description: 'Its place on the order.' }),
    title: t.exposeString('title', { description: 'What was done.' }),
  }),
});

/** An entry as it would be signed, with who would sign it. */
export const EntryDraftType = builder.objectRef<Prepared>('EntryDraft').implement({
  description:
    'A record entry as the person signed in would sign it now. Nothing is kept until it is signed.',
  fields: (t) => ({
    rule: t.field({
      type: EntryRuleType,
      description: 'Which paragraph it is made under.',
      resolve: ({ entry }) => entry.rule,
    }),
    text: t.string({
      nullable: true,
      description:
        'The whole text that would be signed; null while anything that the regulation asks for is missing.',
      resolve: ({ entry }) => entry.text,
    }),
    described: t.stringList({
      description: 'The work and the extent that it describes, also while something is missing.',
      resolve: ({ entry }) => entry.described.filter((line) => line !== ''),
    }),
    tisHundredths: t.int({
      nullable: true,
      description: 'Time in service at arrival, hundredths of an hour; null: no meter was read.',
      resolve: ({ entry }) => entry.tisHundredths,
    }),
    completedOn: t.field({
      type: 'Date',
      nullable: true,
      description: 'The day on which the last of the work was finished.',
      resolve: ({ entry }) => entry.completedOn,
    }),
    missing: t.field({
      type: [Missing],
      description: 'Everything that keeps it from being signed.',
      resolve: ({ entry }) => entry.missing,
    }),
    listed: t.field({
      type: [Listed],
      description: 'What would stand on the list of discrepancies and unairworthy items.',
      resolve: ({ entry }) => entry.listed,
    }),
    items: t.field({
      type: [DraftItem],
      description:
        'Finished items that belong in a book of this kind and stand in no entry of it yet.',
      resolve: ({ belong }) => belong,
    }),
    choice: t.exposeBoolean('choice', {
      description:
        'The aircraft has several books of this kind: items of the other one are left out.',
    }),
    itemCount: t.int({
      description: 'Items whose work it describes.',
      resolve: ({ entry }) => entry.items.length,
    }),
    mayApprove: t.boolean({
      description: 'Whether the person signed in may approve this work, by certificate and day.',
      resolve: ({ signer }) => signer.may,
    }),
    because: t.string({
      description: 'In what capacity they may; or why they may not, with the paragraph.',
      resolve: ({ signer }) => signer.because,
    }),
    signer: t.string({
      description: 'Their name: what they type to sign.',
      resolve: ({ signer }) => signer.name,
    }),
    cautions: t.stringList({
      description: 'What has to be kept in mind when signing.',
      resolve: () => cautionsOn('signing').map(({ text }) => text),
    }),
  }),
});

interface EntryLink {
  seq: number;
  hash: Uint8Array;
  key: { fingerprint: string };
}
const EntryProof = builder.objectRef<EntryLink>('EntryProof').implement({
  description: "An entry's link in the chain of its aircraft's records.",
  fields: (t) => ({
    number: t.exposeInt('seq', { description: 'Its number: 1, 2, 3, … without a gap.' }),
    hash: t.string({
      description: 'Its hash, hexadecimal: what the next link names.',
      resolve: ({ hash }) => Buffer.from(hash).toString('hex'),
    }),
    key: t.string({
      description: "Fingerprint of the shop's key that signed it (RFC 7638).",
      resolve: ({ key }) => key.fingerprint,
    }),
  }),
});

builder.prismaNode('RecordEntry', {
  id: { field: 'id' },
  description:
    'A signed maintenance-record entry. Never changed: a correction is a new entry that points back.',
  fields: (t) => ({
    order: t.relation('order', { description: 'The job that it enters.' }),
    book: t.relation('book', { description: 'The book that it is for.' }),
    rule: t.expose('rule', {
      type: EntryRuleType,
      description: 'Which paragraph it is made under.',
    }),
    inspection: t.expose('inspection', {
      type: InspectionKind,
      nullable: true,
      description: 'Which inspection it enters, if one.',
    }),
    text: t.exposeString('text', { description: 'The whole text as it was shown and signed.' }),
    completedOn: t.expose('completedOn', { type: 'Date', description: 'Date of completion.' }),
    tisHundredths: t.exposeInt('tisHundredths', {
      description: 'Time in service, hundredths of an hour.',
    }),
    outcome: t.expose('outcome', { type: ReleaseOutcome, description: 'How it ended.' }),
    signedBy: t.relation('signedBy', { description: 'Who signed.' }),
    signedAt: t.expose('signedAt', { type: 'DateTime', description: 'When.' }),
    signature: t.exposeString('signature', { description: 'The name as the signer typed it.' }),
    certificateKind: t.expose('certificateKind', {
      type: CertificateKind,
      description: 'Kind of certificate.',
    }),
    certificateNumber: t.exposeString('certificateNumber', {
      description: 'Number of the certificate.',
    }),
    corrects: t.relation('corrects', {
      nullable: true,
      description: 'The entry that it corrects.',
    }),
    corrections: t.relation('corrections', {
      description: 'Entries that correct it.',
      query: { orderBy: { signedAt: 'asc' } },
    }),
    discrepancies: t.relation('discrepancies', {
      description: 'The list given to the owner (14 CFR 43.11(b)).',
      query: { orderBy: { finding: { number: 'asc' } } },
    }),
    chainHash: t.string({
      nullable: true,
      description: "Hash of its link in the shop's chain, hexadecimal.",
      select: { id: true },
      resolve: ({ id }, _, context) => chainHash(context, 'entry', id),
    }),
    proof: t.field({
      type: EntryProof,
      nullable: true,
      description:
        "Its link in the aircraft's chain; null for what was signed before there was one.",
      select: { id: true },
      resolve: async ({ id }, _, { read }) =>
        read.recordLink.findFirst({
          where: { subjectId: id },
          select: { seq: true, hash: true, key: { select: { fingerprint: true } } },
        }),
    }),
    cautions: t.stringList({
      description: 'What is printed with it.',
      resolve: () => cautionsOn('entry').map(({ text }) => text),
    }),
  }),
});

builder.prismaNode('EntryDiscrepancy', {
  id: { field: 'id' },
  description: 'A discrepancy or unairworthy item on the list given to the owner.',
  fields: (t) => ({
    finding: t.relation('finding', { description: 'The finding.' }),
    class: t.expose('class', { type: FindingClass, description: 'Its class.' }),
    words: t.exposeString('words', { description: 'As it stands on the list.' }),
    inoperative: t.exposeBoolean('inoperative', {
      description: 'Left inoperative and placarded, as 14 CFR 91.213(d) permits.',
    }),
  }),
});

builder.prismaObjectField('WorkOrder', 'entries', (t) =>
  t.relation('entries', {
    description: 'What was signed for it, in order.',
    query: { orderBy: [{ signedAt: 'asc' }, { id: 'asc' }] },
  }),
);
