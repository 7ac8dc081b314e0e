import { cautionsOn } from '@fairlead/airworthiness';
import { notFound, Refused } from '../errors.ts';
import { parseGlobalId } from '../ids.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { dimensionWords } from './dimension.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dayText } from './figures.ts';
import { drawCode, drawFacts, drawHazards, drawNotes } from './parts.ts';
import { type Hours, hoursOf } from './quote-figures.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';

const ITEM = `id position title jasc critical cautions reference state checklist { number words initials }
  finding { number title } ourCost ourCostWords { putsRight { title order { number } } }
  plannedAccess { clearanceMm sight posture reach swingDeg held lockedFasteners }
  quoteLine { hours { p10 p50 p80 p90 } }`;
const ORDER =
  'number title plannedFor openedAt aircraft { registration serial model { maker name } }';

export const JOB_CARD = `query JobCard($id: ID!) {
  ${SHOP}
  node(id: $id) {
    ... on WorkItem { item: id ${ITEM} order { ${ORDER} } }
    ... on WorkOrder { ${ORDER} items { ${ITEM} } }
  }
}`;

interface Access {
  clearanceMm: number | null;
  sight: 'direct' | 'mirror' | 'feel' | null;
  posture: 'upright' | 'bent' | 'lying' | null;
  reach: 'forearm' | 'arm' | null;
  swingDeg: number | null;
  held: boolean | null;
  lockedFasteners: number | null;
}

interface Item {
  id: string;
  position: number;
  title: string;
  jasc: string;
  critical: boolean;
  cautions: string[];
  reference: string;
  checklist: { number: number; words: string; initials: string | null }[];
  state: string;
  finding: { number: number; title: string } | null;
  ourCost: 'shop' | 'training' | 'rework' | null;
  ourCostWords: { putsRight: { title: string; order: { number: number } } | null }[];
  plannedAccess: Access | null;
  quoteLine: { hours: Hours | null } | null;
}

interface Order {
  number: number;
  title: string;
  plannedFor: string | null;
  openedAt: string;
  aircraft: { registration: string; serial: string; model: { maker: string; name: string } };
}

export interface JobCardAnswer {
  viewer: { shop: PaperShop };
  node: (Item & { order: Order }) | (Order & { items: Item[] }) | null;
}

/** A card for one item, or one each for all of an order that are still to be done on this visit. */
export const jobCardPaper: PaperKind = {
  of: ['WorkItem', 'WorkOrder'],
  papers: pages,
  async read(context, id) {
    const { node, viewer } = await ask<JobCardAnswer>(context, JOB_CARD, { id });
    if (!node) throw notFound(parseGlobalId(id).typename === 'WorkItem' ? 'item' : 'order');
    const [order, items] =
      'items' in node
        ? [node, node.items.filter(({ state }) => state !== 'put_off')]
        : [node.order, [node]];
    const [first] = items;
    if (!first)
      throw new Refused(
        'NOT_FOUND',
        `Order ${order.number} has no items to be done: there is no card to print.`,
      );
    const which = 'items' in node ? 'job-cards' : `job-card-${first.position}`;
    return {
      filename: `${which}-order-${order.number}-${order.aircraft.registration}`,
      print: (print) => drawCards(order, items, viewer.shop, print),
    };
  },
};

const sights = { direct: 'in plain sight', mirror: 'by mirror or borescope', feel: 'by feel' };
const postures = {
  upright: 'standing upright',
  bent: 'bent or kneeling',
  lying: 'lying or overhead',
};
const reaches = { forearm: 'to the forearm', arm: 'the full arm' };

/** The place as it was planned for, in words; what is not recorded is left out. */
function accessWords(access: Access | null): string[] {
  if (!access) return ['as installed; nothing recorded'];
  const { clearanceMm, sight, posture, reach, swingDeg, held, lockedFasteners } = access;
  const words = [
    clearanceMm === null ? '' : `${clearanceMm} mm of room for hand and tool`,
    sight ? `seen: ${sights[sight]}` : '',
    posture ? `one works ${postures[posture]}` : '',
    reach ? `reach: ${reaches[reach]}` : '',
    swingDeg === null ? '' : `${swingDeg}° of free swing`,
    held ? 'held against a load while fastening' : '',
    lockedFasteners ? `${lockedFasteners} locked fasteners` : '',
  ].filter(Boolean);
  return words.length > 0 ? words : ['nothing recorded'];
}

function drawCards(
  order: Order,
  items: readonly [Item, ...Item[]] | readonly Item[],
  shop: PaperShop,
  print: Print,
): Promise<Buffer> {
  const { aircraft } = order;
  const one = items.length === 1 ? items[0] : undefined;
  const what = one ? `Job card ${one.position}, ${one.title}` : `Job cards, ${order.title}`;
  const sheet = new DrawingSheet({
    ...print,
    title: `${what}, order ${order.number}, ${aircraft.registration}`,
    block: {
      what,
      rows: [
        [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Order', value: `${order.number}`, figures: true },
          { label: 'Type', value: `${aircraft.model.maker} ${aircraft.model.name}`, share: 1.6 },
        ],
        [
          { label: 'Serial', value: aircraft.serial, figures: true },
          {
            label: 'Date',
            value: dayText(order.plannedFor ?? order.openedAt, shop.timeZone),
            figures: true,
          },
        ],
      ],
      ...fromShop(shop, print),
    },
  });
  for (const [index, item] of items.entries()) {
    if (index > 0) sheet.nextPage();
    drawCard(sheet, order, item, print.webOrigin);
  }
  return sheet.finish();
}

function drawCard(sheet: DrawingSheet, order: Order, item: Item, webOrigin: string): void {
  const { type } = sheet;
  const side = mm(38);
  const [top, page] = [sheet.y, sheet.doc.bufferedPageRange().count];
  const x = sheet.right - side;
  const width = sheet.width - side - type.body * 2;
  const address = `${webOrigin}/bench?item=${encodeURIComponent(item.id)}`;

  sheet.text(`Job card ${item.position} · order ${order.number}`, { size: type.head, width });
  sheet.text(item.title, { tag: 'H1', face: 'bold', size: type.title, leading: 1.3, width });
  sheet.text(`${order.aircraft.registration} · ${order.title}`, { size: type.head, width });
  if (item.finding)
    sheet.text(`Corrects finding ${item.finding.number}: ${item.finding.title}`, {
      size: type.head,
      width,
    });
  const [ours] = item.ourCostWords;
  if (item.ourCost)
    sheet.text(
      ours?.putsRight
        ? `At our own cost: puts right “${ours.putsRight.title}” of order ${ours.putsRight.order.number}`
        : `At our own cost: ${item.ourCost === 'training' ? 'training' : 'for the shop'}`,
      { size: type.head, width },
    );
  const below = sheet.y;
  if (sheet.doc.bufferedPageRange().count === page) {
    drawCode(sheet, sheet.root, address, { x, y: top - type.body * 0.5, side });
    sheet.tag(sheet.root, 'P', () =>
      sheet.write('Opens this item on the bench', top + side - type.body * 0.6, {
        size: type.label,
        x,
        width: side,
        align: 'centre',
      }),
    );
    sheet.y = Math.max(below, top + side + type.body);
  }
  sheet.space(type.body);

  drawHazards(sheet, item.cautions);
  const hours = item.quoteLine?.hours;
  drawFacts(sheet, [
    { label: 'JASC code', lines: [item.jasc] },
    {
      label: 'Done by this data',
      lines: [item.reference || 'none named: ask before the work begins'],
    },
    { label: 'Planned', lines: [hours ? dimensionWords(hoursOf(hours)) : 'no hours of its own'] },
  ]);
  drawFacts(sheet, [
    { label: 'Access as planned', lines: [accessWords(item.plannedAccess).join(', ')] },
    {
      label: 'Looked at by',
      lines: [
        item.critical
          ? 'two people: this is critical, the second independent of the first'
          : 'an inspector',
      ],
    },
  ]);
  drawChecklist(sheet, item.checklist);
  drawByHand(sheet, 'Work done, in your own words', 5);
  drawByHand(sheet, 'Found', 3);
  drawSignatures(sheet, ['Done', 'Looked at', ...(item.critical ? ['Second look'] : [])]);
  drawNotes(sheet, [
    'This card is a help and no record: what was done goes into the program and, signed, into the book.',
    ...cautionsOn('task').map(({ text }) => text),
  ]);
}

/** The lines of the item's list, each with a box for the initials of whoever did it. */
function drawChecklist(sheet: DrawingSheet, lines: Item['checklist']): void {
  if (lines.length === 0) return;
  const { type } = sheet;
  const [wide, high] = [mm(18), mm(7)];
  sheet.heading('Line by line, initialled by who did it', high * 2);
  for (const { number, words, initials } of lines) {
    const line = `${number}  ${words}`;
    const width = sheet.width - wide - type.body;
    sheet.need(Math.max(high, sheet.wrap(line, width).length * sheet.lineHeight({})) + type.body);
    const top = sheet.y;
    sheet.text(line, { width });
    const below = Math.max(sheet.y, top + high);
    sheet.decorate((doc) =>
      doc
        .lineWidth(0.6)
        .rect(sheet.right - wide, top, wide, high)
        .stroke('black'),
    );
    if (initials)
      sheet.tag(sheet.root, 'P', () =>
        sheet.write(initials, top + (high - type.body * 1.3) / 2, {
          x: sheet.right - wide,
          width: wide,
          align: 'centre',
        }),
      );
    sheet.y = below + type.body * 0.3;
  }
  sheet.y += type.body * 0.5;
}

/** Lines to be written on. */
function drawByHand(sheet: DrawingSheet, title: string, lines: number): void {
  const gap = mm(8);
  sheet.heading(title, gap * lines);
  for (let line = 0; line < lines; line += 1) {
    sheet.y += gap;
    sheet.hairline(sheet.y);
  }
  sheet.y += sheet.type.body * 0.8;
}

/** A box each for name and day. */
function drawSignatures(sheet: DrawingSheet, titles: readonly string[]): void {
  const { type } = sheet;
  const high = mm(15);
  sheet.need(high + type.body);
  const wide = sheet.width / titles.length;
  sheet.decorate((doc) => {
    doc.lineWidth(0.6);
    for (const index of titles.keys())
      doc.rect(sheet.left + index * wide, sheet.y, wide, high).stroke('black');
  });
  sheet.tag(sheet.root, 'P', () => {
    for (const [index, title] of titles.entries())
      sheet.write(`${title.toUpperCase()}: INITIALS, DAY`, sheet.y + type.label * 0.6, {
        size: type.label,
        x: sheet.left + index * wide + type.body * 0.5,
      });
  });
  sheet.y += high + type.body;
}
