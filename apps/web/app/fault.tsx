'use client';

import { Button } from '../components/Button.tsx';
import { ErrorNote } from '../components/ErrorNote.tsx';
import { Sheet } from '../components/Sheet.tsx';

/** A fault of ours while drawing a sheet. What was already sent is safe: it is on the server. */
export default function Fault({ digest, again }: { digest?: string; again: () => void }) {
  return (
    <Sheet
      title="This sheet could not be drawn"
      titleBlock={{ what: 'A fault of the program', cells: [] }}
    >
      <ErrorNote
        head="A fault of the program"
        action={<Button onClick={again}>Draw it again</Button>}
      >
        Nothing that was sent is lost.
        {digest === undefined ? '' : ` When you report it, say ${digest}.`}
      </ErrorNote>
    </Sheet>
  );
}
