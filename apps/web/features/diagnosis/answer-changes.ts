import type { Seen } from '@fairlead/diagnosis';

/** What is sent after somebody changed what is seen: answers that differ, and null for those taken back. */
export function answerChanges(before: Seen, after: Seen): Record<string, string | null> {
  const changed = Object.entries(after).filter(([id, answer]) => before[id] !== answer);
  const taken = Object.keys(before).filter((id) => after[id] === undefined);
  return Object.fromEntries([...changed, ...taken.map((id) => [id, null] as const)]);
}
