import { cautionsOn } from '@fairlead/airworthiness';
import { Refused } from '../errors.ts';
import type { PaperShop } from './ask.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { type Entry, readEntry } from './entry-data.ts';
import { certificateWords } from './entry-words.ts';
import { dateText, dayText, recordHours } from './figures.ts';
import { drawFacts, drawNotes, drawStamp, drawTitle } from './parts.ts';
import {
  drawPictures,
  type KeptPhoto,
  loadPictures,
  photoFilesOf,
  photosOfFinding,
} from './pictures.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';

/** The signed and dated list of 14 CFR 43.11(b), as it is given to the owner. */
export const discrepanciesPaper: PaperKind = {
  of: ['RecordEntry'],
  papers: pages,
  async read(context, id) {
    const { entry, shop } = await readEntry(context, id);
    const { registration } = entry.order.aircraft;
    if (entry.discrepancies.length === 0)
      throw new Refused(
        'NOT_FOUND',
        `The entry for ${registration} of ${entry.completedOn} has no list of discrepancies: a list is made when an inspection ends as not airworthy, or leaves equipment inoperative.`,
      );
    const files = await photoFilesOf(context, photosOf(entry));
    return {
      filename: `discrepancies-${registration}-${entry.completedOn}`,
      print: (print) => drawList(entry, shop, print, files),
    };
  },
};

const photosOf = ({ discrepancies }: Entry) =>
  discrepancies.flatMap(({ finding }) => photosOfFinding(finding));

/** Who it was given to, as the signed text says. */
const recipientOf = ({ text }: Entry) =>
  /^Given to (.+) after an inspection \(14 CFR 43\.11\(b\)\)\.$/m.exec(text)?.[1] ??
  'the owner or lessee';

async function drawList(
  entry: Entry,
  shop: PaperShop,
  print: Print,
  files: ReadonlyMap<string, KeptPhoto>,
): Promise<Buffer> {
  const { aircraft } = entry.order;
  const signed = dayText(entry.signedAt, shop.timeZone);
  const sheet = new DrawingSheet({
    ...print,
    title: `Discrepancies and unairworthy items, ${aircraft.registration}, ${signed}`,
    block: {
      what: 'Discrepancies and unairworthy items, 14 CFR 43.11(b)',
      rows: [
        [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Serial', value: aircraft.serial, figures: true },
          { label: 'Order', value: `${entry.order.number}`, figures: true },
        ],
        [
          { label: 'Signed by', value: entry.signature },
          { label: 'Date', value: signed, figures: true },
        ],
      ],
      hash: entry.chainHash,
      ...fromShop(shop, print),
    },
  });
  const { type } = sheet;
  const recipient = recipientOf(entry);

  drawTitle(
    sheet,
    'Discrepancies and unairworthy items',
    `${aircraft.registration}, ${aircraft.model.maker} ${aircraft.model.name}`,
  );
  drawFacts(sheet, [
    { label: 'Given to', lines: [recipient] },
    { label: 'After', lines: [entry.order.title, `completed ${dateText(entry.completedOn)}`] },
    { label: 'Time in service', lines: [`${recordHours(entry.tisHundredths)} h`] },
  ]);
  sheet.hairline(sheet.y, sheet.left, sheet.right, 1.1);
  sheet.y += type.body * 0.5;
  // As it stands in the signed text: unairworthy, discrepancies, what stays inoperative.
  const rank = ({ class: kind, inoperative }: Entry['discrepancies'][number]) =>
    inoperative ? 2 : kind === 'unairworthy' ? 0 : 1;
  const worstFirst = entry.discrepancies.toSorted((one, other) => rank(one) - rank(other));
  const [by] = entry.corrections;
  const struck = by !== undefined;
  if (by)
    sheet.text(
      `Struck through: corrected by the entry that ${by.signedBy.name} signed on ${dayText(by.signedAt, shop.timeZone)}. It is printed as it was signed.`,
      { face: 'bold', leading: 2 },
    );
  for (const [index, { class: kind, words, inoperative }] of worstFirst.entries()) {
    const x = sheet.left + type.body * 3;
    sheet.text(`${index + 1}. ${inoperative ? 'inoperative, placarded' : kind}`, {
      face: 'bold',
      keep: type.body * 3,
    });
    sheet.text(words, { x, struck });
    sheet.y += type.body * 0.35;
    sheet.hairline(sheet.y, sheet.left, sheet.right, 0.25);
    sheet.y += type.body * 0.5;
  }
  drawStamp(sheet, {
    kind: certificateWords[entry.certificateKind],
    name: entry.signature,
    number: entry.certificateNumber,
    date: signed,
  });
  drawReceipt(sheet, recipient);
  const pictures = await loadPictures(print.uploadsDir, files, photosOf(entry));
  if (pictures.length > 0) {
    sheet.heading('Photos', mm(50));
    drawPictures(sheet, pictures);
  }
  drawNotes(
    sheet,
    cautionsOn('discrepancy_list').map(({ text }) => text),
  );
  return sheet.finish();
}

/** Where the one who receives the list writes that they have it. */
function drawReceipt(sheet: DrawingSheet, recipient: string): void {
  const { type } = sheet;
  sheet.need(mm(22));
  sheet.y += mm(12);
  sheet.hairline(sheet.y, sheet.left, sheet.left + sheet.width * 0.6, 0.6);
  sheet.y += type.small * 0.5;
  sheet.text(`Received by ${recipient}: signature and day`, { size: type.small });
}
