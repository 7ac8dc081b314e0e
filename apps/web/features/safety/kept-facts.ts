import { createContext, useContext } from 'react';
import type { Fact } from './facts.ts';

/** A fact that this device has noted, and of which the shop's answer is not read yet. */
export type UnsentFact = Fact & { id: string; words: string; at: string; name: string };

/** Where facts are kept on the device and sent when they can be: at the bench. Null elsewhere: the shop is asked at once. */
export const KeptFacts = createContext<{
  note(fact: Fact, words: string): Promise<void>;
  unsent: readonly UnsentFact[];
} | null>(null);

/** What this device has noted and the shop's answers do not show yet. */
export const useUnsentFacts = (): readonly UnsentFact[] => useContext(KeptFacts)?.unsent ?? [];
