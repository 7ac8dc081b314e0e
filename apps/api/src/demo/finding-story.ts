import type { FindingClass } from '@fairlead/database';
import { currency, parseAmount } from '@fairlead/money';
import { type DemoFinding, type DemoOrder, readDemo } from '../../../../prisma/demo/data.ts';
import { newId } from '../new-id.ts';
import { draftQuote } from '../quoting/draft-quote.ts';
import { recordDecision } from '../quoting/record-decision.ts';
import { sendQuote } from '../quoting/send-quote.ts';
import { assessFinding } from '../work/assess-finding.ts';
import { sayOutcome } from '../work/diagnosis/say-outcome.ts';
import { noteFinding } from '../work/note-finding.ts';
import type { Act } from './play.ts';
import { channelOf, nameItems, type Props, wanted } from './story.ts';

/** A finding is noted with its photos and what is seen, assessed, offered and answered, and its cause said, as far as it has come. */
export function findingActs(order: DemoOrder, finding: DemoFinding, props: Props): Act[] {
  const { clock } = props;
  const { noted, seen, assessed, turnedOut } = finding;
  const at = clock.at(noted.at);
  const id = () => props.findings.of(finding.key);
  const early = finding.photos.filter((photo) => clock.at(photo.at) <= at);
  const acts: Act[] = [
    {
      at,
      by: noted.by,
      does: async (context) =>
        props.findings.set(
          finding.key,
          await noteFinding(context, {
            orderId: props.orders.of(order.key),
            itemId:
              finding.foundDuring === null
                ? null
                : props.items.of(`${order.key} ${finding.foundDuring}`),
            title: finding.title,
            words: `${finding.words} Where: ${finding.where}.`,
            zone: finding.zone,
            class: noted.provisionalClass as FindingClass,
            photoIds: early.map(({ file }) => props.photos.of(file)),
            sighting: {
              symptom: seen.symptom,
              answers: Object.entries(seen.answers).map(([question, answer]) => ({
                question,
                answer,
              })),
            },
            foundAt: at,
            clientEventId: newId(),
          }),
        ),
    },
  ];
  for (const [index, photo] of finding.photos.entries()) {
    if (early.includes(photo)) continue;
    acts.push({
      at: clock.at(photo.at),
      by: photo.by,
      does: (context) =>
        context.write((tx) =>
          tx.findingPhoto.create({
            data: { findingId: id(), photoId: props.photos.of(photo.file), position: index + 1 },
          }),
        ),
    });
  }
  if (assessed)
    acts.push({
      at: clock.at(assessed.at),
      by: assessed.by,
      does: (context) =>
        assessFinding(context, {
          findingId: id(),
          class: assessed.class as FindingClass,
          meaning: assessed.words,
        }),
    });
  if (turnedOut)
    acts.push({
      at: clock.at(turnedOut.at),
      by: turnedOut.by,
      does: (context) =>
        sayOutcome(context, {
          findingId: id(),
          symptom: seen.symptom,
          kind: 'listed',
          cause: turnedOut.cause,
          words: '',
        }),
    });
  return [...acts, ...offerActs(order, finding, props)];
}

function offerActs(order: DemoOrder, finding: DemoFinding, props: Props): Act[] {
  const { offered, decision } = finding;
  if (!offered) return [];
  const { clock, quotes } = props;
  const key = `offer of ${finding.key}`;
  const terms = `${offered.reason}${offered.addsDays > 0 ? ` Adds about ${offered.addsDays} days to the visit.` : ''}`;
  const acts: Act[] = [
    {
      at: clock.at(offered.at),
      by: offered.by,
      does: async (context) => {
        const quoteId = await draftQuote(context, {
          aircraftId: props.aircraft.of(order.aircraft),
          contactId: props.contacts.of(offered.to),
          packageId: null,
          findingId: props.findings.of(finding.key),
          ...wanted(offered.lines, props),
          title: null,
          expiresOn: null,
          terms,
          clientEventId: null,
        });
        quotes.set(key, quoteId);
        await sendQuote(context, { quoteId, revision: 1, channel: channelOf(decision?.how) });
      },
    },
  ];
  if (!decision) return acts;
  const money = currency(readDemo('shop.json').currency);
  acts.push({
    at: clock.at(decision.at),
    by: decision.recordedBy,
    does: async (context) => {
      await recordDecision(context, {
        quoteId: quotes.of(key),
        revision: 1,
        contactId: props.contacts.of(decision.by),
        choice: decision.answer === 'agreed' ? 'go_ahead' : 'not_now',
        channel: channelOf(decision.how),
        wordsShown: decision.readOut ?? `${finding.title}. ${offered.reason}`,
        ceiling: decision.ceiling === undefined ? null : parseAmount(decision.ceiling, money),
        decidedAt: null,
        note: decision.how,
      });
      await nameItems(context, order, props);
    },
  });
  return acts;
}
