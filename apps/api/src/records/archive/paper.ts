import { cautionsOn, inoperativeQuestions } from '@fairlead/airworthiness';
import type { Link, Seal } from '@fairlead/proof';
import {
  certificateWords,
  DrawingSheet,
  dateText,
  dayText,
  drawNotes,
  drawTitle,
  moneyText,
  nameOfBook,
  recordHours,
} from '../../paper/index.ts';

/** So many links go into one file: the whole of it is in memory while it is drawn. */
export const LINKS_A_PAPER = 250;

const text = (value: unknown) => (typeof value === 'string' ? value : '');
const object = (value: unknown) =>
  (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>;

type Who = Pick<Seal, 'aircraft' | 'shop'> & {
  timeZone: string;
  at: Date;
  fingerprint: string;
  corrections: Corrections;
};

/** Entries that a later one corrects, and those that correct, each with the number of the other's link. */
export interface Corrections {
  readonly by: ReadonlyMap<string, number>;
  readonly of: ReadonlyMap<string, number>;
}

/** Links of a chain on paper, drawn from what was signed: it can say nothing else than the lines for machines. */
export async function drawLinks(
  links: readonly { link: Link; hash: string }[],
  { aircraft, shop, timeZone, at, fingerprint, corrections }: Who,
): Promise<Buffer> {
  const [first, last] = [links[0]?.link.statement.seq ?? 0, links.at(-1)?.link.statement.seq ?? 0];
  const title = `Records ${first} to ${last}, ${aircraft.registration}`;
  const sheet = new DrawingSheet({
    paper: 'a4',
    title,
    at,
    block: {
      what: title,
      rows: [
        [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Serial', value: aircraft.serial, figures: true },
        ],
        [{ label: 'Type', value: `${aircraft.maker} ${aircraft.model}`, share: 3 }],
      ],
      hash: links.at(-1)?.hash ?? null,
      shop,
      printed: `Sealed ${dayText(at, timeZone)}`,
    },
  });
  const { small } = sheet.type;
  drawTitle(
    sheet,
    `Records ${first} to ${last}`,
    `${aircraft.registration}, as ${shop.name} kept them`,
  );
  sheet.text(
    `Written from records.jsonl, which is what was signed. Key of the shop: ${fingerprint}.`,
    { size: small },
  );
  for (const { link, hash } of links) {
    if (link.statement.kind === 'entry') drawEntry(sheet, link, timeZone, corrections);
    else if (link.statement.kind === 'decision') drawDecision(sheet, link, timeZone);
    else drawSaid(sheet, link, timeZone);
    sheet.text(`Hash ${hash}`, { size: small, face: 'figures' });
    if (link.statement.key !== fingerprint)
      sheet.text(`Signed with an earlier key of the shop: ${link.statement.key}.`, { size: small });
    // Others get their turn between two entries.
    await new Promise((done) => setImmediate(done));
  }
  drawNotes(
    sheet,
    cautionsOn('entry').map((caution) => caution.text),
  );
  return sheet.finish();
}

function drawEntry(
  sheet: DrawingSheet,
  { statement, content }: Link,
  timeZone: string,
  corrections: Corrections,
): void {
  const { book, certificate, photos, items } = (content ?? {}) as Record<string, unknown>;
  const { kind, title } = object(book) as {
    kind: Parameters<typeof nameOfBook>[0]['kind'];
    title: string;
  };
  sheet.heading(
    `${statement.seq}  ${nameOfBook({ kind, title })}, ${dateText(text(content?.['completedOn']))}, ${recordHours(Number(content?.['tisHundredths']))} h`,
  );
  const [by, of] = [corrections.by, corrections.of].map((map) => map.get(statement.subject));
  if (content?.['corrects'])
    sheet.text(of === undefined ? 'Corrects an earlier entry.' : `Corrects record ${of}.`, {
      face: 'bold',
    });
  if (by !== undefined)
    sheet.text(`Struck through: corrected by record ${by}. It is printed as it was signed.`, {
      face: 'bold',
    });
  for (const line of text(content?.['text']).split('\n'))
    if (line !== '') sheet.text(line, { struck: by !== undefined });
  const { kind: held, number } = object(certificate);
  sheet.text(
    `Signed ${text(content?.['signature'])}, ${certificateWords[held as keyof typeof certificateWords] ?? text(held)} ${text(number)}, ${dayText(text(content?.['signedAt']), timeZone)}`,
    { face: 'bold' },
  );
  for (const item of Array.isArray(items) ? items : []) drawLooks(sheet, object(item));
  for (const photo of Array.isArray(photos) ? photos : [])
    sheet.text(
      `Photo ${text(object(photo)['sha256']).slice(0, 16)}…: ${text(object(photo)['words'])}`,
      {
        size: sheet.type.small,
      },
    );
}

const lookWords: Record<string, string> = {
  done: 'done by',
  initialled: 'initialled by',
  second_inspected: 'second look by',
};

/** Who did an item, initialled it and gave the second look. */
function drawLooks(sheet: DrawingSheet, { title, looks }: Record<string, unknown>): void {
  const said = (Array.isArray(looks) ? looks : []).map(object);
  if (said.length === 0) return;
  const words = said.map(({ kind, by }) => `${lookWords[text(kind)] ?? text(kind)} ${text(by)}`);
  sheet.text(`${text(title)}: ${words.join(', ')}`, { size: sheet.type.small });
}

const flightWords: Record<string, string> = {
  asked: 'Asked for',
  flown: 'Flown',
  ground_tests: 'Need not be flown',
  withdrawn: 'No longer asked for',
};

/** What was said of a flight after work (91.407), or of equipment that stays inoperative (91.213(d)). */
function drawSaid(sheet: DrawingSheet, { statement, content }: Link, timeZone: string): void {
  const of = (key: string) => text(content?.[key]);
  const day = dayText(of('at'), timeZone);
  if (statement.kind === 'flight_check') {
    sheet.heading(`${statement.seq}  Flight after work, 14 CFR 91.407, ${day}`);
    const flown =
      of('pilotName') === ''
        ? ''
        : ` On ${dateText(of('flownOn'))} by ${of('pilotName')}, ${of('pilotCertificate')}.`;
    sheet.text(`${flightWords[of('kind')] ?? of('kind')}: ${of('words')}${flown}`);
  } else {
    sheet.heading(`${statement.seq}  Inoperative equipment, 14 CFR 91.213(d), ${day}`);
    if (of('kind') === 'withdrawn') sheet.text(`Taken back: ${of('words')}`);
    else {
      sheet.text(
        `${of('equipment')}: ${of('method')}, placarded “Inoperative” (${of('placardAt')}). Found by ${of('by')}, ${of('capacity')}.`,
      );
      for (const { key, paragraph, asks } of inoperativeQuestions)
        sheet.text(`${asks} (${paragraph}): ${of(key)}`, { size: sheet.type.small });
    }
  }
  sheet.text(`Noted by ${of('by')}.`, { size: sheet.type.small });
}

const choices: Record<string, string> = {
  go_ahead: 'go ahead',
  not_now: 'not now',
  talk_first: 'talk to me first',
};

function drawDecision(sheet: DrawingSheet, { statement, content }: Link, timeZone: string): void {
  if (content === null) {
    sheet.heading(`${statement.seq}  A decision of the owner`);
    sheet.text('Its words and price were left out of this archive. Its digest stands in its link.');
    return;
  }
  const { number, title, revision } = object(content['quote']);
  const { minor, currency } = object(content['ceiling']);
  sheet.heading(
    `${statement.seq}  Decision on quote ${String(number)}, ${dayText(text(content['decidedAt']), timeZone)}`,
  );
  sheet.text(
    `${text(content['by'])} answered “${choices[text(content['choice'])] ?? text(content['choice'])}” to revision ${String(revision)}, ${text(title)}${
      typeof minor === 'string'
        ? `, as far as ${moneyText(BigInt(minor), text(currency))} ${text(currency)}`
        : ''
    }.`,
  );
  sheet.text(
    content['recordedBy'] === null
      ? 'Given on their own page.'
      : `Recorded by ${text(content['recordedBy'])}.`,
    { size: sheet.type.small },
  );
}
