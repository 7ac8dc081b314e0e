/** What a page's content says of marks and painting, in order; as far as our own papers and small samples use the language. */
export type Mark =
  | { kind: 'begin'; tag: string; mcid: number | null }
  | { kind: 'end' }
  /** Something is painted: text, a line, an area, a picture. */
  | { kind: 'paint'; operator: string };

// Operators that leave something on the page (ISO 32000-1, tables 60, 74, 87, 109).
const painting = new Set(
  ['S', 's', 'f', 'F', 'f*', 'B', 'B*', 'b', 'b*', 'sh', 'Do'].concat(['Tj', 'TJ', "'", '"']),
);
const TOKEN =
  /\((?:\\[^]|[^\\()])*\)|<<|>>|<[0-9A-Fa-f\s]*>|\[|\]|\/[^\s/<>[\]()]+|[^\s/<>[\]()]+/g;

export function marksOf(content: string): Mark[] {
  const marks: Mark[] = [];
  let operands: string[] = [];
  for (const [token] of content.matchAll(TOKEN)) {
    if (token === 'BDC' || token === 'BMC') {
      const at = operands.indexOf('/MCID');
      const mcid = at < 0 ? null : Number(operands[at + 1]);
      marks.push({ kind: 'begin', tag: (operands[0] ?? '').slice(1), mcid });
    } else if (token === 'EMC') marks.push({ kind: 'end' });
    else if (painting.has(token)) marks.push({ kind: 'paint', operator: token });
    if (/^[A-Za-z'"*]/.test(token)) operands = [];
    else operands.push(token);
  }
  return marks;
}
