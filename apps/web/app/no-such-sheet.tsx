'use client';

import { ButtonLink } from '../components/Button.tsx';
import { Empty } from '../components/Empty.tsx';
import { Sheet } from '../components/Sheet.tsx';

export default function NoSuchSheet() {
  return (
    <Sheet title="No such sheet" titleBlock={{ what: 'No such sheet', cells: [] }}>
      <Empty draws="sheet" action={<ButtonLink href="/">To your sheet</ButtonLink>}>
        Nothing is drawn at this address, or it belongs to another shop.
      </Empty>
    </Sheet>
  );
}
