import { randomBytes } from 'node:crypto';
import type { Prisma, Tx } from '@fairlead/database';
import {
  type Content,
  canonical,
  type LinkKind,
  makeLink,
  NOTHING_BEFORE,
  type SigningKey,
} from '@fairlead/proof';
import { Refused } from './errors.ts';
import { holdFor } from './hold.ts';

const entryToLink = {
  rule: true,
  inspection: true,
  text: true,
  completedOn: true,
  tisHundredths: true,
  outcome: true,
  signedAt: true,
  signature: true,
  certificateKind: true,
  certificateNumber: true,
  correctsId: true,
  signedBy: { select: { name: true } },
  book: { select: { kind: true, title: true } },
  items: {
    orderBy: { item: { position: 'asc' } },
    select: {
      itemId: true,
      item: {
        select: {
          ...{ title: true, jasc: true, reference: true },
          events: {
            where: { kind: { in: ['done', 'initialled', 'second_inspected', 'reopened'] } },
            orderBy: [{ at: 'asc' }, { id: 'asc' }],
            select: { kind: true, at: true, by: { select: { name: true } } },
          },
        },
      },
    },
  },
  discrepancies: {
    orderBy: { id: 'asc' },
    select: { findingId: true, class: true, words: true, inoperative: true },
  },
  order: {
    select: {
      id: true,
      number: true,
      title: true,
      aircraft: {
        select: {
          registration: true,
          serial: true,
          model: { select: { maker: true, name: true } },
        },
      },
    },
  },
} satisfies Prisma.RecordEntrySelect;

const decisionToLink = {
  choice: true,
  channel: true,
  wordsShown: true,
  ceilingMinor: true,
  currency: true,
  decidedAt: true,
  recordedAt: true,
  recordedById: true,
  note: true,
  contact: { select: { name: true } },
  revision: { select: { revision: true, quote: { select: { number: true, title: true } } } },
} satisfies Prisma.DecisionSelect;

const iso = (day: Date) => day.toISOString().slice(0, 10);

async function entryContent(tx: Tx, id: string): Promise<Omit<Content, 'salt'>> {
  const entry = await tx.recordEntry.findUniqueOrThrow({ where: { id }, select: entryToLink });
  const { order, book, signedBy, items, discrepancies } = entry;
  const itemIds = items.map(({ itemId }) => itemId);
  // Photos of what was corrected, found on the way or listed.
  const photos = await tx.findingPhoto.findMany({
    where: {
      finding: {
        orderId: order.id,
        OR: [
          { id: { in: discrepancies.map(({ findingId }) => findingId) } },
          { itemId: { in: itemIds } },
          { corrections: { some: { id: { in: itemIds } } } },
        ],
      },
    },
    orderBy: [{ findingId: 'asc' }, { position: 'asc' }, { id: 'asc' }],
    select: { photo: { select: { sha256: true, words: true } } },
  });
  const { registration, serial, model } = order.aircraft;
  return {
    aircraft: { registration, serial, maker: model.maker, model: model.name },
    order: { number: order.number, title: order.title },
    book,
    rule: entry.rule,
    inspection: entry.inspection,
    text: entry.text,
    completedOn: iso(entry.completedOn),
    tisHundredths: entry.tisHundredths,
    outcome: entry.outcome,
    signedAt: entry.signedAt.toISOString(),
    signedBy: signedBy.name,
    signature: entry.signature,
    certificate: { kind: entry.certificateKind, number: entry.certificateNumber },
    corrects: entry.correctsId,
    items: items.map(({ item: { events, ...item } }) => ({ ...item, looks: looksOf(events) })),
    discrepancies: discrepancies.map(({ class: found, words, inoperative }) => ({
      ...{ class: found, words },
      ...(inoperative && { inoperative }),
    })),
    photos: [...new Map(photos.map(({ photo }) => [photo.sha256, photo])).values()].map(
      ({ sha256, words }) => ({ sha256, words }),
    ),
  };
}

type ItemSaid = Prisma.RecordEntryGetPayload<{
  select: typeof entryToLink;
}>['items'][number]['item']['events'];

/** Who did the work, who initialled it and who gave the second look, since it was last opened. */
const looksOf = (events: ItemSaid) =>
  events
    .slice(events.findLastIndex(({ kind }) => kind === 'reopened') + 1)
    .map(({ kind, at, by }) => ({ kind, at: at.toISOString(), by: by.name }));

async function flightCheckContent(tx: Tx, id: string): Promise<Omit<Content, 'salt'>> {
  const { by, order, flownOn, at, ...said } = await tx.flightCheck.findUniqueOrThrow({
    where: { id },
    select: {
      ...{ kind: true, words: true, pilotName: true, pilotCertificate: true, flownOn: true },
      ...{ at: true, by: { select: { name: true } } },
      order: { select: { number: true, title: true } },
    },
  });
  return { order, ...said, flownOn: flownOn && iso(flownOn), at: at.toISOString(), by: by.name };
}

async function inoperativeContent(tx: Tx, id: string): Promise<Omit<Content, 'salt'>> {
  const { by, at, finding, item, ...said } = await tx.inoperativeEquipment.findUniqueOrThrow({
    where: { id },
    select: {
      ...{ kind: true, equipment: true, method: true, placardAt: true, words: true },
      ...{ notTypeBasis: true, notListed: true, notRuled: true, notDirected: true },
      ...{ noHazard: true, capacity: true, at: true, by: { select: { name: true } } },
      item: { select: { title: true } },
      finding: { select: { number: true, title: true, order: { select: { number: true } } } },
    },
  });
  return { finding, ...said, work: item?.title ?? null, at: at.toISOString(), by: by.name };
}

const contentOf: Record<LinkKind, (tx: Tx, id: string) => Promise<Omit<Content, 'salt'>>> = {
  entry: entryContent,
  decision: decisionContent,
  flight_check: flightCheckContent,
  inoperative: inoperativeContent,
};

async function decisionContent(tx: Tx, id: string): Promise<Omit<Content, 'salt'>> {
  const decision = await tx.decision.findUniqueOrThrow({ where: { id }, select: decisionToLink });
  const { revision, contact, recordedById } = decision;
  const by = recordedById
    ? await tx.person.findUnique({ where: { id: recordedById }, select: { name: true } })
    : null;
  return {
    quote: {
      number: revision.quote.number,
      revision: revision.revision,
      title: revision.quote.title,
    },
    choice: decision.choice,
    by: contact.name,
    channel: decision.channel,
    wordsShown: decision.wordsShown,
    ceiling:
      decision.ceilingMinor === null
        ? null
        : { minor: decision.ceilingMinor.toString(), currency: decision.currency.trim() },
    decidedAt: decision.decidedAt.toISOString(),
    recordedAt: decision.recordedAt.toISOString(),
    recordedBy: by?.name ?? null,
    note: decision.note,
  };
}

/**
 * Links whatever was signed or decided for an aircraft and stands in its chain not yet: in the transaction that wrote it,
 * as the last thing. Chains of two aircraft never wait for each other; within one, links are made one after the other.
 */
export async function linkRecords(
  tx: Tx,
  key: SigningKey,
  aircraftId: string,
  now: Date,
): Promise<void> {
  await holdFor(tx, 'records of aircraft', aircraftId);
  const waiting = await tx.$queryRaw<{ kind: LinkKind; id: string }[]>`
    SELECT w.kind, w.id FROM (
      SELECT 'entry' AS kind, e.id, e.signed_at AS at FROM record_entry e
        JOIN work_order o ON o.shop_id = e.shop_id AND o.id = e.order_id AND o.aircraft_id = ${aircraftId}::uuid
      UNION ALL
      SELECT 'decision', d.id, d.recorded_at FROM decision d
        JOIN quote_revision r ON r.shop_id = d.shop_id AND r.id = d.revision_id
        JOIN quote q ON q.shop_id = r.shop_id AND q.id = r.quote_id AND q.aircraft_id = ${aircraftId}::uuid
      UNION ALL
      SELECT 'flight_check', f.id, f.at FROM flight_check f
        JOIN work_order o ON o.shop_id = f.shop_id AND o.id = f.order_id AND o.aircraft_id = ${aircraftId}::uuid
      UNION ALL
      SELECT 'inoperative', i.id, i.at FROM inoperative_equipment i
        JOIN finding g ON g.shop_id = i.shop_id AND g.id = i.finding_id
        JOIN work_order o ON o.shop_id = g.shop_id AND o.id = g.order_id AND o.aircraft_id = ${aircraftId}::uuid
    ) w WHERE NOT EXISTS (SELECT FROM record_link l WHERE l.subject_id = w.id)
    ORDER BY w.at, w.id`;
  if (waiting.length === 0) return;
  const keyId = await keyRow(tx, key);
  if ((await tx.shopKeyChange.count({ where: { fromId: keyId } })) > 0)
    throw new Refused('CONFLICT', 'The key of the shop was replaced just now: do it again.');
  const last = await tx.recordLink.findFirst({
    where: { aircraftId },
    orderBy: { seq: 'desc' },
    select: { seq: true, hash: true },
  });
  let seq = last?.seq ?? 0;
  let previous = last ? Buffer.from(last.hash).toString('hex') : NOTHING_BEFORE;
  for (const { kind, id } of waiting) {
    seq += 1;
    const salt = randomBytes(16).toString('base64url');
    const said = await contentOf[kind](tx, id);
    const content: Content = { ...said, salt };
    const { link, hash } = makeLink(
      key,
      { chain: aircraftId, seq, kind, subject: id, at: now.toISOString(), previous },
      content,
    );
    await tx.recordLink.create({
      data: {
        aircraftId,
        seq,
        kind,
        subjectId: id,
        statement: canonical(link.statement),
        content: canonical(content),
        hash: Buffer.from(hash, 'hex'),
        signature: link.signature,
        keyId,
      },
      select: { id: true },
    });
    previous = hash;
  }
}

/** The row of a key's public half; written when it first signs. */
export async function keyRow(tx: Tx, { fingerprint, publicKey }: SigningKey): Promise<string> {
  await tx.$executeRaw`INSERT INTO shop_key (shop_id, fingerprint, public_key)
    VALUES (current_shop(), ${fingerprint}, ${publicKey.x}) ON CONFLICT (shop_id, fingerprint) DO NOTHING`;
  const { id } = await tx.shopKey.findFirstOrThrow({
    where: { fingerprint },
    select: { id: true },
  });
  return id;
}
