import {
  decodePDFRawStream,
  PDFArray,
  PDFBool,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  type PDFPage,
  PDFRawStream,
  PDFRef,
  PDFString,
} from 'pdf-lib';
import { marksOf } from './content-stream.ts';

/**
 * An independent look at what ISO 14289-1 (PDF/UA-1) asks of a file, as far as a program can see it. No
 * validator of the standard is on npm or in Debian, so this walks the objects with another library than
 * the one that wrote them. Numbers are checkpoints of the Matterhorn Protocol 1.1, from memory.
 */
export async function complaintsAbout(bytes: Uint8Array): Promise<string[]> {
  const file = await PDFDocument.load(bytes, { updateMetadata: false });
  const said: string[] = [];
  const { context, catalog } = file;
  const look = <T extends PDFObject>(of: PDFDict, key: string) =>
    of.lookup(PDFName.of(key)) as T | undefined;
  const wordsIn = (object: PDFObject | undefined) =>
    object instanceof PDFString || object instanceof PDFHexString ? object.decodeText() : '';
  const nameIn = (object: PDFObject | undefined) =>
    object instanceof PDFName ? object.asString().slice(1) : '';
  const decoded = (stream: PDFObject | undefined) =>
    stream instanceof PDFRawStream
      ? Buffer.from(decodePDFRawStream(stream).decode()).toString('latin1')
      : '';

  // 06, 07, 11: metadata, the title that the window shows, the language.
  const metadata = decoded(look(catalog, 'Metadata'));
  if (!/<pdfuaid:part>1</.test(metadata)) said.push('06-002: the metadata do not claim PDF/UA-1');
  if (!/<dc:title>[^]*?<rdf:li[^>]*>\s*\S/.test(metadata)) said.push('06-003: no dc:title');
  const preferences = look<PDFDict>(catalog, 'ViewerPreferences');
  if (!preferences || look(preferences, 'DisplayDocTitle') !== PDFBool.True)
    said.push('07-001: the window does not show the title');
  if (wordsIn(look(catalog, 'Lang')) === '') said.push('11-006: no language');
  const markInfo = look<PDFDict>(catalog, 'MarkInfo');
  if (!markInfo || look(markInfo, 'Marked') !== PDFBool.True) said.push('not marked as tagged');

  // 01: everything painted is tagged or an artifact, and never the one inside of the other.
  const contents = (page: PDFPage) => {
    const { Contents } = page.node.normalizedEntries();
    return Contents
      ? Contents.asArray()
          .map((ref) => decoded(context.lookup(ref)))
          .join('\n')
      : decoded(look(page.node, 'Contents'));
  };
  const pages = file.getPages();
  const tagsOn = pages.map(() => new Map<number, string>());
  for (const [index, page] of pages.entries()) {
    const open: string[] = [];
    for (const mark of marksOf(contents(page))) {
      const where = `page ${index + 1}`;
      if (mark.kind === 'paint' && open.length === 0)
        said.push(`01-005: ${where}: ${mark.operator} is neither tagged nor an artifact`);
      if (mark.kind === 'end' && open.pop() === undefined) said.push(`${where}: an end too many`);
      if (mark.kind !== 'begin') continue;
      if (open.includes('Artifact') && mark.mcid !== null)
        said.push(`01-004: ${where}: ${mark.tag} inside of an artifact`);
      if (mark.tag === 'Artifact' && open.some((tag) => tag !== 'Artifact'))
        said.push(`01-003: ${where}: an artifact inside of ${open.join(' > ')}`);
      if (mark.mcid !== null) {
        if (tagsOn[index]?.has(mark.mcid)) said.push(`${where}: number ${mark.mcid} twice`);
        tagsOn[index]?.set(mark.mcid, mark.tag);
      }
      open.push(mark.tag);
    }
    if (open.length > 0) said.push(`page ${index + 1}: ${open.join(' > ')} is not ended`);
    if ((look<PDFArray>(page.node, 'Annots')?.size() ?? 0) > 0)
      said.push(`28: page ${index + 1} has annotations`);
  }

  // The tree: who owns which piece of which page, in the order in which it is read.
  const root = look<PDFDict>(catalog, 'StructTreeRoot');
  if (!root) return [...said, '01: no structure tree'];
  const owner = pages.map(() => new Map<number, PDFDict>());
  const headings: number[] = [];
  const pageOf = (ref: PDFObject | undefined) => pages.findIndex(({ ref: own }) => own === ref);
  const kids = (of: PDFDict): PDFObject[] => {
    const k = of.get(PDFName.of('K'));
    const one = k instanceof PDFRef ? context.lookup(k) : k;
    return one instanceof PDFArray ? one.asArray() : k ? [k] : [];
  };
  const own = (element: PDFDict, mcid: number, page: number) => {
    if (!tagsOn[page]?.has(mcid))
      said.push(`the tree names ${mcid} of page ${page + 1}, not there`);
    if (owner[page]?.has(mcid)) said.push(`${mcid} of page ${page + 1} is owned twice`);
    owner[page]?.set(mcid, element);
  };
  const last: number[] = [];
  const inOrder = (mcid: number, page: number) => {
    if (mcid < (last[page] ?? -1)) said.push(`09-001: page ${page + 1} is not read as it is drawn`);
    last[page] = mcid;
  };
  const walk = (element: PDFDict, above: string): void => {
    const tag = nameIn(look(element, 'S'));
    const level = /^H([1-6])$/.exec(tag)?.[1];
    if (!known.has(tag)) said.push(`02-001: "${tag}" is no standard type`);
    if (level) headings.push(Number(level));
    if (tag === 'Figure' && wordsIn(look(element, 'Alt')).trim() === '')
      said.push('13-004: a figure without its words');
    const attributes = look<PDFDict>(element, 'A');
    const scope = attributes && nameIn(look(attributes, 'Scope'));
    if (tag === 'TH' && scope !== 'Column' && scope !== 'Row')
      said.push('15-003: TH without scope');
    if (inside[tag] && !inside[tag].includes(above)) said.push(`09-004: ${tag} inside of ${above}`);
    const rows: number[] = [];
    const own1 = pageOf(element.get(PDFName.of('Pg')));
    for (const kid of kids(element)) {
      const object = kid instanceof PDFRef ? context.lookup(kid) : kid;
      if (object instanceof PDFNumber) {
        own(element, object.asNumber(), own1);
        inOrder(object.asNumber(), own1);
      } else if (object instanceof PDFDict && nameIn(look(object, 'Type')) === 'MCR') {
        const [page, mcid] = [
          pageOf(object.get(PDFName.of('Pg'))),
          look<PDFNumber>(object, 'MCID'),
        ];
        own(element, mcid?.asNumber() ?? -1, page);
        inOrder(mcid?.asNumber() ?? -1, page);
      } else if (object instanceof PDFDict) {
        if (look<PDFDict>(object, 'P') !== element)
          said.push(`a ${tag}'s child has another parent`);
        if (tag === 'Table') rows.push(kids(object).length);
        walk(object, tag);
      }
    }
    if (tag === 'Table' && new Set(rows).size > 1)
      said.push(`15: rows of ${[...new Set(rows)].join(' and ')} cells in one table`);
  };
  const tops = kids(root).map((ref) => context.lookup(ref));
  if (tops.length !== 1 || nameIn(look(tops[0] as PDFDict, 'S')) !== 'Document')
    said.push('the root is not one Document');
  for (const top of tops) walk(top as PDFDict, '');
  if (headings[0] !== 1)
    said.push(`14-002: the first heading is of level ${headings[0] ?? 'none'}`);
  for (const [index, level] of headings.entries())
    if (level > (headings[index - 1] ?? 0) + 1)
      said.push(`14-003: a heading of level ${level} after one of ${headings[index - 1]}`);
  const tree = numbersOf(look<PDFDict>(root, 'ParentTree'), context);
  for (const [index, page] of pages.entries()) {
    for (const [mcid, tag] of tagsOn[index] ?? []) {
      const element = owner[index]?.get(mcid);
      if (!element) said.push(`01-005: ${tag} ${mcid} of page ${index + 1} is in no element`);
      const key = look<PDFNumber>(page.node, 'StructParents')?.asNumber() ?? -1;
      if (tree.get(key)?.lookup(mcid) !== element)
        said.push(`ParentTree: ${mcid} of page ${index + 1} leads elsewhere`);
      const type = element && nameIn(look(element, 'S'));
      if (element && type !== tag) said.push(`${tag} in the page is ${type} in the tree`);
    }
  }

  // 31: every typeface is embedded and can be read back.
  for (const [, object] of context.enumerateIndirectObjects()) {
    if (!(object instanceof PDFDict) || nameIn(look(object, 'Type')) !== 'Font') continue;
    const font = nameIn(look(object, 'BaseFont'));
    const descriptor = look<PDFDict>(object, 'FontDescriptor');
    const isWhole = nameIn(look(object, 'Subtype')) === 'Type0';
    if (isWhole && !look(object, 'ToUnicode')) said.push(`31-027: ${font} cannot be read back`);
    if (
      !isWhole &&
      !(descriptor && ['FontFile2', 'FontFile3'].some((key) => look(descriptor, key)))
    )
      said.push(`31-009: ${font} is not embedded`);
  }
  return said;
}

// ISO 32000-1, 14.8.4, as far as the papers use them.
const known = new Set(
  ['Document', 'Sect', 'H1', 'H2', 'H3', 'P', 'L', 'LI', 'Figure'].concat([
    'Table',
    'TR',
    'TH',
    'TD',
  ]),
);
const inside: Record<string, string[]> = { TR: ['Table'], TH: ['TR'], TD: ['TR'], LI: ['L'] };

/** A number tree as a map. */
function numbersOf(
  tree: PDFDict | undefined,
  context: PDFDocument['context'],
): Map<number, PDFArray> {
  const found = new Map<number, PDFArray>();
  const nums = tree?.lookup(PDFName.of('Nums'));
  if (nums instanceof PDFArray)
    for (let at = 0; at < nums.size(); at += 2) {
      const value = nums.lookup(at + 1);
      if (value instanceof PDFArray) found.set((nums.lookup(at) as PDFNumber).asNumber(), value);
    }
  const kids = tree?.lookup(PDFName.of('Kids'));
  if (kids instanceof PDFArray)
    for (const kid of kids.asArray())
      for (const [key, value] of numbersOf(context.lookup(kid) as PDFDict, context))
        found.set(key, value);
  return found;
}
