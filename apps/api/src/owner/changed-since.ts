import { sayAmount } from '../quoting/index.ts';

interface Version {
  revision: number;
  currency: string;
  likelyMinor: bigint;
  highMinor: bigint;
  lines: readonly { title: string; likelyMinor: bigint }[];
}

/** What differs between two revisions of an offer, one sentence each, for the person who answers. */
export function changedSince(before: Version, now: Version) {
  const say = (amount: bigint) => sayAmount(amount, now.currency);
  const old = new Map(before.lines.map(({ title, likelyMinor }) => [title, likelyMinor]));
  const kept = new Set(now.lines.map(({ title }) => title));
  const sentences = [
    ...now.lines.flatMap(({ title, likelyMinor }) => {
      const was = old.get(title);
      if (was === undefined) return [`Added: ${title}, likely ${say(likelyMinor)}.`];
      return was === likelyMinor
        ? []
        : [`${title}: likely ${say(likelyMinor)} instead of ${say(was)}.`];
    }),
    ...before.lines.flatMap(({ title }) => (kept.has(title) ? [] : [`Left out: ${title}.`])),
  ];
  if (before.likelyMinor !== now.likelyMinor || before.highMinor !== now.highMinor)
    sentences.push(
      `Altogether likely ${say(now.likelyMinor)} instead of ${say(before.likelyMinor)}; nine in ten under ${say(now.highMinor)} instead of ${say(before.highMinor)}.`,
    );
  if (sentences.length === 0)
    sentences.push('The work and its price are the same; terms or dates changed.');
  return { since: before.revision, sentences };
}
