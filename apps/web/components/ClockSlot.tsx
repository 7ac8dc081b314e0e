'use client';

import { type ComponentType, useEffect, useState } from 'react';
import type { Role } from './sheets.ts';

/** Where the running clock of whoever reads stands. It comes after the sheet, and only to those who have a clock. */
export function ClockSlot({ roles }: { roles: readonly Role[] }) {
  const clocks = roles.some((role) => role !== 'front_desk');
  const [Clock, setClock] = useState<ComponentType>();
  useEffect(() => {
    if (!clocks) return;
    let left = false;
    void import('../features/work/ElsewhereClock.tsx')
      .then(({ default: loaded }) => {
        if (!left) setClock(() => loaded);
      })
      // A sheet without its strip is better than none.
      .catch(() => undefined);
    return () => {
      left = true;
    };
  }, [clocks]);
  return Clock === undefined ? null : <Clock />;
}
