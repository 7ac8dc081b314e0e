'use client';

import { Button } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import { AskFirst } from './AskFirst.tsx';
import type { BenchItem } from './bench-documents.ts';

/** The hazards of an item, before its clock starts. */
export function CautionsFirst({
  item,
  onRead,
  onLeave,
}: {
  item: Pick<BenchItem, 'id' | 'title' | 'cautions'>;
  onRead: () => void;
  onLeave: () => void;
}) {
  return (
    <AskFirst head={item.title} onLeave={onLeave}>
      <Caution hazards={item.cautions} head="Before you start">
        The maker’s current manual governs.
      </Caution>
      <Button kind="primary" size="bench" onClick={onRead}>
        Read. Start the clock
      </Button>
    </AskFirst>
  );
}
