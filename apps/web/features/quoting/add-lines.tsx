'use client';

import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { request } from '../../graphql/request.ts';
import { FindPartsDocument, FindTasksDocument } from './catalogue-document.ts';
import { Picker } from './picker.tsx';
import { unitPriceText } from './quote-figures.ts';
import { useSettled } from './use-forecast.ts';
import type { WantedPart, WantedTask } from './use-wanted.ts';

/** Finds a task by its title, its short name or its JASC code, and adds it. */
export function AddTask({
  label = 'Add a task',
  taken,
  onAdd,
}: {
  label?: string;
  /** Ids that are in the quote already. */
  taken: ReadonlySet<string>;
  onAdd: (task: WantedTask) => void;
}) {
  const [typed, setTyped] = useState('');
  const search = useSettled(typed.trim(), 150);
  const { data, error, isPlaceholderData } = useQuery({
    queryKey: ['findTasks', search],
    placeholderData: keepPreviousData,
    queryFn: () => request(FindTasksDocument, { search: search === '' ? null : search }),
  });
  const tasks = (data?.tasks.edges ?? [])
    .map(({ node }) => node)
    .filter(({ id }) => !taken.has(id));
  return (
    <Picker
      label={label}
      hint="By title or JASC code"
      items={tasks.map(({ id, title, jasc, standardHours }) => ({
        id,
        text: title,
        note: standardHours === null ? jasc : `${jasc} · standard ${standardHours} h`,
      }))}
      onType={setTyped}
      behind={isPlaceholderData || search !== typed.trim()}
      onPick={(id) => {
        const task = tasks.find((each) => each.id === id);
        if (task !== undefined) onAdd(task);
      }}
      nothing={error?.message ?? 'No task of the shop is called that.'}
    />
  );
}

/** Finds a part by its number or title, and adds one of it. */
export function AddPart({
  taken,
  onAdd,
}: {
  taken: ReadonlySet<string>;
  onAdd: (part: WantedPart) => void;
}) {
  const [typed, setTyped] = useState('');
  const search = useSettled(typed.trim(), 150);
  const { data, error, isPlaceholderData } = useQuery({
    queryKey: ['findParts', search],
    placeholderData: keepPreviousData,
    queryFn: () => request(FindPartsDocument, { search: search === '' ? null : search }),
  });
  const parts = (data?.parts.edges ?? [])
    .map(({ node }) => node)
    .filter(({ id }) => !taken.has(id));
  return (
    <Picker
      label="Add a part"
      hint="By number or title"
      items={parts.map(({ id, title, number, unit, unitPrice }) => ({
        id,
        text: title,
        note: `${number} · ${unitPrice === null ? 'no price yet' : unitPriceText(unitPrice)} ${unit}`,
      }))}
      onType={setTyped}
      behind={isPlaceholderData || search !== typed.trim()}
      onPick={(id) => {
        const part = parts.find((each) => each.id === id);
        if (part !== undefined) onAdd({ ...part, quantity: '1' });
      }}
      nothing={error?.message ?? 'No part of the shop is called that.'}
    />
  );
}
