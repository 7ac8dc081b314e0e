'use client';

import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { request } from '../../graphql/request.ts';
import { Picker } from '../quoting/picker.tsx';
import { useSettled } from '../quoting/use-forecast.ts';
import { PartsDocument, type StoresPart } from './stores-documents.ts';

/** Finds a part of the shop by number or title; the one taken stays in the field. */
export function PartPicker({
  label,
  part,
  onPick,
  without,
}: {
  label: string;
  part: StoresPart | undefined;
  onPick: (part: StoresPart | undefined) => void;
  /** A part that cannot be meant. */
  without?: string;
}) {
  const [typed, setTyped] = useState('');
  const search = useSettled(typed.trim(), 150);
  const found = useQuery({
    queryKey: ['parts', search],
    placeholderData: keepPreviousData,
    queryFn: async () =>
      (await request(PartsDocument, { search: search === '' ? null : search })).parts.edges.map(
        ({ node }) => node,
      ),
  });
  const parts = (found.data ?? []).filter(({ id }) => id !== without);
  const listed =
    part === undefined || parts.some(({ id }) => id === part.id) ? parts : [part, ...parts];
  return (
    <Picker
      label={label}
      hint="By number or title"
      items={listed.map(({ id, title, number }) => ({ id, text: title, note: number }))}
      {...(part === undefined ? {} : { keeps: part.id })}
      onType={setTyped}
      behind={found.isPlaceholderData || search !== typed.trim()}
      onPick={(id) => onPick(listed.find((each) => each.id === id))}
      nothing={found.error?.message ?? 'No part of the shop is called that.'}
    />
  );
}
