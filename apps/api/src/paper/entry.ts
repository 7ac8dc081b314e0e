import type { PaperShop } from './ask.ts';
import { fromShop, type PaperKind, type Print } from './document.ts';
import { type Entry, readEntry } from './entry-data.ts';
import { certificateWords, nameOfBook } from './entry-words.ts';
import { dateText, dayText, recordHours } from './figures.ts';
import { drawNotes, drawStamp, drawTitle } from './parts.ts';
import { DrawingSheet } from './sheet.ts';

/** A signed entry as it goes into the book; on a sheet that sticks as well. */
export const entryPaper: PaperKind = {
  of: ['RecordEntry'],
  papers: ['a4', 'letter', 'sheet'],
  async read(context, id) {
    const { entry, shop } = await readEntry(context, id);
    const { registration } = entry.order.aircraft;
    return {
      filename: `entry-${entry.book.kind}-${registration}-${entry.completedOn}`,
      print: (print) => drawEntry(entry, shop, print),
    };
  },
};

function drawEntry(entry: Entry, shop: PaperShop, print: Print): Promise<Buffer> {
  const { order, book } = entry;
  const { aircraft } = order;
  const small = print.paper === 'sheet';
  const name = nameOfBook(book);
  const sheet = new DrawingSheet({
    ...print,
    title: `${name}, ${aircraft.registration}, ${dateText(entry.completedOn)}`,
    block: {
      what: small ? `${name} · ${shop.name}` : `${name}, ${order.title}`,
      rows: [
        [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Serial', value: aircraft.serial, figures: true },
          { label: 'Completed', value: dateText(entry.completedOn), figures: true },
        ],
        [
          {
            label: 'Time in service',
            value: `${recordHours(entry.tisHundredths)} h`,
            figures: true,
          },
          { label: 'Order', value: `${order.number}`, figures: true },
        ],
        ...(small
          ? []
          : [
              [
                { label: 'Signed by', value: entry.signature, share: 1.5 },
                {
                  label: 'Type',
                  value: `${aircraft.model.maker} ${aircraft.model.name}`,
                  share: 1.5,
                },
              ],
            ].map((row) => row)),
      ],
      hash: entry.chainHash,
      ...fromShop(shop, print),
    },
  });
  const { type } = sheet;

  if (!small) drawTitle(sheet, name, `${aircraft.registration}, order ${order.number}`);
  const [by] = entry.corrections;
  const struck = by !== undefined;
  if (by)
    sheet.text(
      `Struck through: corrected by the entry that ${by.signedBy.name} signed on ${dayText(by.signedAt, shop.timeZone)}. It is printed as it was signed.`,
      { face: 'bold' },
    );
  if (by) sheet.space(type.body * 0.5);
  // Line for line as it was signed: nothing is put in better words here.
  for (const [index, part] of entry.text.split('\n\n').entries()) {
    if (index > 0) {
      sheet.space(type.body * 0.8);
      sheet.hairline(sheet.y);
      sheet.y += type.body * 0.5;
    }
    for (const [at, line] of part.split('\n').entries()) {
      sheet.text(line, {
        ...(at === 0 && { tag: index === 0 && small ? 'H1' : 'H2', face: 'bold' }),
        struck,
      });
      sheet.y += type.body * 0.35;
    }
  }
  drawStamp(sheet, {
    kind: certificateWords[entry.certificateKind],
    name: entry.signature,
    number: entry.certificateNumber,
    date: dayText(entry.signedAt, shop.timeZone),
  });
  if (entry.proof)
    sheet.text(
      `Record ${entry.proof.number} of ${aircraft.registration}, hash ${entry.proof.hash}, signed with the shop's key ${entry.proof.key}.`,
      { size: type.small },
    );
  drawNotes(sheet, entry.cautions);
  return sheet.finish();
}
