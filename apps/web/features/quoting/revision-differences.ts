/** Of a line, what two revisions are compared by. Amounts in minor units, as text. */
interface ComparedLine {
  title: string;
  pricing: string;
  quantity: string;
  likely: string;
  high: string;
  limit?: string | null | undefined;
  charge?: string | null | undefined;
  task?: { id: string } | null | undefined;
  part?: { id: string } | null | undefined;
}

export interface LineDifference {
  key: string;
  title: string;
  /** Null: not in that revision. */
  from: bigint | null;
  to: bigint | null;
  /** What changed besides the amount, in words; empty where nothing did. */
  words: string;
}

const sold: Record<string, string> = {
  fixed: 'at a fixed price',
  time_and_materials: 'by time and materials',
  not_to_exceed: 'not to exceed a limit',
};

/**
 * The lines in which two revisions differ, those of the later one in its order, then those that are gone. A line is the
 * same where it is for the same task, part or charge.
 */
export function revisionDifferences(
  from: readonly ComparedLine[],
  to: readonly ComparedLine[],
): LineDifference[] {
  const before = keyed(from);
  const after = keyed(to);
  const rows = [...after].map(([key, line]) => difference(key, before.get(key), line));
  const gone = [...before]
    .filter(([key]) => !after.has(key))
    .map(([key, line]) => difference(key, line, undefined));
  return [...rows, ...gone].filter(
    ({ from: one, to: other, words }) => one !== other || words !== '',
  );
}

/** Two lines of the same thing are told apart by which comes first. */
function keyed(lines: readonly ComparedLine[]): Map<string, ComparedLine> {
  const found = new Map<string, ComparedLine>();
  for (const line of lines) {
    const what = line.task?.id ?? line.part?.id ?? `${line.charge ?? 'flat'} ${line.title}`;
    let key = what;
    for (let again = 2; found.has(key); again += 1) key = `${what} ${again}`;
    found.set(key, line);
  }
  return found;
}

function difference(
  key: string,
  from: ComparedLine | undefined,
  to: ComparedLine | undefined,
): LineDifference {
  const amount = (line: ComparedLine | undefined) => (line ? BigInt(line.likely) : null);
  return {
    key,
    title: (to ?? from)?.title ?? '',
    from: amount(from),
    to: amount(to),
    words: from && to ? changed(from, to) : to ? 'added' : 'taken off',
  };
}

function changed(from: ComparedLine, to: ComparedLine): string {
  const said: string[] = [];
  if (from.pricing !== to.pricing)
    said.push(`${sold[to.pricing]} instead of ${sold[from.pricing]}`);
  else if ((from.limit ?? null) !== (to.limit ?? null)) said.push('another limit');
  if (Number(from.quantity) !== Number(to.quantity))
    said.push(`${to.quantity} instead of ${from.quantity}`);
  if (from.likely === to.likely && from.high !== to.high) said.push('another range');
  return said.join(', ');
}
