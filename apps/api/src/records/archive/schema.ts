import { chainFaults, NOTHING_BEFORE, readLink, type Seal } from '@fairlead/proof';
import { builder } from '../../builder.ts';
import { archiveDoesNotProve, archiveProves } from './words.ts';

interface Proof {
  aircraftId: string;
  links: number;
  head: string;
}
const ProofType = builder.objectRef<Proof>('RecordProof').implement({
  description: "The chain of an aircraft's signed entries and decisions.",
  fields: (t) => ({
    links: t.exposeInt('links', { description: 'How many links it has.' }),
    head: t.exposeString('head', { description: 'Hash of the last; 64 zeros before the first.' }),
    key: t.string({
      nullable: true,
      description:
        "Fingerprint of the shop's key (RFC 7638), as entries print it; null before anything was signed.",
      resolve: async (_, __, { read }) =>
        (
          await read.shopKey.findFirst({
            orderBy: { madeAt: 'desc' },
            select: { fingerprint: true },
          })
        )?.fingerprint ?? null,
    }),
    proves: t.stringList({ description: 'What an archive proves.', resolve: () => archiveProves }),
    doesNotProve: t.stringList({
      description: 'What it does not prove.',
      resolve: () => archiveDoesNotProve,
    }),
  }),
});

builder.prismaObjectField('Aircraft', 'proof', (t) =>
  t.field({
    type: ProofType,
    description: 'How its records are chained.',
    select: {
      id: true,
      links: { orderBy: { seq: 'desc' }, take: 1, select: { seq: true, hash: true } },
    },
    resolve: ({ id, links: [last] }) => ({
      aircraftId: id,
      links: last?.seq ?? 0,
      head: last ? Buffer.from(last.hash).toString('hex') : NOTHING_BEFORE,
    }),
  }),
);
builder.prismaObjectField('Aircraft', 'received', (t) =>
  t.relation('received', {
    description: 'Records that came with it from other shops, as they were verified at the door.',
    query: { orderBy: [{ receivedAt: 'asc' }, { id: 'asc' }] },
  }),
);

type Content = Readonly<Record<string, unknown>> | null;
interface ReceivedRecord {
  number: number;
  kind: string;
  content: Content;
}
const said = (content: Content, key: string) => {
  const value = content?.[key];
  return typeof value === 'string' ? value : null;
};
const ReceivedRecordType = builder.objectRef<ReceivedRecord>('ReceivedRecord').implement({
  description: 'An entry or a decision of another shop, as it was signed there.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its number in that chain.' }),
    kind: t.exposeString('kind', { description: 'entry, decision, flight_check or inoperative.' }),
    leftOut: t.boolean({
      description: 'Whether that shop left its words out: its digest alone is here.',
      resolve: ({ content }) => content === null,
    }),
    text: t.string({
      nullable: true,
      description: 'The text of an entry, as it was signed.',
      resolve: ({ content }) => said(content, 'text'),
    }),
    completedOn: t.string({
      nullable: true,
      description: 'The day of an entry, as that shop wrote it.',
      resolve: ({ content }) => said(content, 'completedOn'),
    }),
    signature: t.string({
      nullable: true,
      description: 'Who signed the entry.',
      resolve: ({ content }) => said(content, 'signature'),
    }),
  }),
});

const sealOf = ({ seal }: { seal: string }) => JSON.parse(seal) as Seal;

builder.prismaNode('ReceivedArchive', {
  id: { field: 'id' },
  description:
    'Records that came with an aircraft from another shop. Read, never changed: file and lines are kept as they were signed.',
  fields: (t) => ({
    shop: t.string({
      description: 'Which shop sealed it, as its seal says.',
      select: { seal: true },
      resolve: (row) => [sealOf(row).shop.name, sealOf(row).shop.place].join(', '),
    }),
    sealedAt: t.string({
      description: 'When, as its seal says: ISO 8601 in UTC.',
      select: { seal: true },
      resolve: (row) => sealOf(row).madeAt,
    }),
    key: t.string({
      description: 'Fingerprint of the key that sealed it.',
      select: { seal: true },
      resolve: (row) => sealOf(row).key,
    }),
    compared: t.boolean({
      description: 'Whether whoever took it in compared its key with one known from elsewhere.',
      select: { comparedKeys: true },
      resolve: ({ comparedKeys }) => comparedKeys.length > 0,
    }),
    links: t.exposeInt('linkCount', { description: 'How many links its chain has.' }),
    receivedAt: t.expose('receivedAt', { type: 'DateTime', description: 'When it came.' }),
    receivedBy: t.relation('receivedBy', { description: 'Who took it in.' }),
    fault: t.string({
      nullable: true,
      description:
        'What of it does not hold any more, its lines verified anew just now; null: it holds.',
      select: { id: true, seal: true, linkCount: true },
      resolve: async ({ id, seal, linkCount }, _, { read }) => {
        const rows = await read.receivedLink.findMany({
          where: { archiveId: id },
          orderBy: { seq: 'asc' },
          select: { line: true },
        });
        const { keys, head: sealed } = sealOf({ seal });
        const { faults, head } = chainFaults(
          rows.map(({ line }) => line),
          keys,
        );
        if (faults[0]) return `${faults[0].where}: ${faults[0].fault}`;
        return head === sealed && rows.length === linkCount ? null : 'lines at its end are missing';
      },
    }),
    records: t.field({
      type: [ReceivedRecordType],
      description: 'Its entries and decisions, in order.',
      args: {
        after: t.arg.int({ defaultValue: 0, description: 'From the number after this one.' }),
        first: t.arg.int({ defaultValue: 50, description: 'How many, at most 200.' }),
      },
      select: { id: true },
      resolve: async ({ id }, { after, first }, { read }) => {
        const rows = await read.receivedLink.findMany({
          where: { archiveId: id, seq: { gt: after ?? 0 } },
          orderBy: { seq: 'asc' },
          take: Math.min(Math.max(first ?? 50, 0), 200),
          select: { seq: true, line: true },
        });
        return rows.map(({ seq, line }) => {
          const link = readLink(line);
          return { number: seq, kind: link?.statement.kind ?? '', content: link?.content ?? null };
        });
      },
    }),
  }),
});
