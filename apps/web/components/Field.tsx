'use client';

import { type ComponentProps, type ReactNode, useId } from 'react';
import styles from './Field.module.css';

interface CellText {
  label: string;
  /** One line on what is wanted. */
  hint?: string | undefined;
  /** What is wrong with the value and what is needed. */
  wrong?: string | undefined;
}

type Inherited = 'className' | 'style' | 'id' | 'children' | 'size';

function Cell({
  id,
  text,
  figures = false,
  children,
}: {
  id: string;
  text: CellText;
  figures?: boolean;
  children: ReactNode;
}) {
  return (
    <div
      className={styles.cell}
      data-wrong={text.wrong === undefined ? undefined : ''}
      data-figures={figures ? '' : undefined}
    >
      <label className={styles.label} htmlFor={id}>
        {text.label}
      </label>
      {children}
      {text.hint === undefined ? null : (
        <p className={styles.hint} id={`${id}-hint`}>
          {text.hint}
        </p>
      )}
      {text.wrong === undefined ? null : (
        <p className={styles.wrong} id={`${id}-wrong`} role="alert">
          {text.wrong}
        </p>
      )}
    </div>
  );
}

function described(id: string, { hint, wrong }: CellText) {
  const ids = [hint === undefined ? '' : `${id}-hint`, wrong === undefined ? '' : `${id}-wrong`];
  const list = ids.filter((each) => each !== '').join(' ');
  return {
    'aria-describedby': list === '' ? undefined : list,
    'aria-invalid': wrong !== undefined,
  };
}

/** One line of input. `figures` sets it in mono, right-aligned; `unit` stands behind it. */
export function Field({
  label,
  hint,
  wrong,
  figures = false,
  unit,
  ...rest
}: CellText & { figures?: boolean; unit?: string } & Omit<ComponentProps<'input'>, Inherited>) {
  const id = useId();
  const input = (
    <input {...rest} {...described(id, { label, hint, wrong })} id={id} className={styles.input} />
  );
  return (
    <Cell id={id} text={{ label, hint, wrong }} figures={figures}>
      {unit === undefined ? (
        input
      ) : (
        <div className={styles.unit}>
          {input}
          <span>{unit}</span>
        </div>
      )}
    </Cell>
  );
}

/** Several lines of input: a squawk, a finding in the finder's words. */
export function LongField({
  label,
  hint,
  wrong,
  ...rest
}: CellText & Omit<ComponentProps<'textarea'>, Inherited>) {
  const id = useId();
  return (
    <Cell id={id} text={{ label, hint, wrong }}>
      <textarea
        {...rest}
        {...described(id, { label, hint, wrong })}
        id={id}
        className={styles.input}
      />
    </Cell>
  );
}

/** One of a few; the browser's own list, so that it works with a thumb and with a keyboard. */
export function Select({
  label,
  hint,
  wrong,
  options,
  ...rest
}: CellText & { options: readonly { value: string; words: string }[] } & Omit<
    ComponentProps<'select'>,
    Inherited
  >) {
  const id = useId();
  return (
    <Cell id={id} text={{ label, hint, wrong }}>
      <div className={styles.select}>
        <select
          {...rest}
          {...described(id, { label, hint, wrong })}
          id={id}
          className={styles.input}
        >
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.words}
            </option>
          ))}
        </select>
        <svg className={styles.arrow} viewBox="0 0 14 10" aria-hidden="true">
          <path d="M1 1H13L7 9Z" fill="none" stroke="currentColor" strokeWidth="2" />
        </svg>
      </div>
    </Cell>
  );
}
