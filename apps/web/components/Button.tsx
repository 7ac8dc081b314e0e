import type { ComponentProps, ReactNode } from 'react';
import styles from './Button.module.css';

interface Look {
  /** `primary` at most once a sheet. */
  kind?: 'primary' | 'outline' | 'plain';
  /** `bench`: full width, 64 px, 18 px text, for a gloved thumb. */
  size?: 'desk' | 'bench';
  children: ReactNode;
}

/** Something done here. While `busy` it cannot be pressed twice and says what is happening. */
export function Button({
  kind = 'outline',
  size = 'desk',
  busy,
  children,
  disabled,
  type = 'button',
  ...rest
}: Look & { busy?: string | undefined } & Omit<ComponentProps<'button'>, 'className' | 'style'>) {
  return (
    <button
      {...rest}
      type={type}
      className={styles.button}
      data-kind={kind}
      data-size={size}
      disabled={disabled === true || busy !== undefined}
      aria-live={busy === undefined ? undefined : 'polite'}
    >
      {busy ?? children}
    </button>
  );
}

/** A way to another sheet that weighs as much as a button. */
export function ButtonLink({
  kind = 'outline',
  size = 'desk',
  href,
  children,
}: Look & { href: string }) {
  return (
    <a className={styles.button} data-kind={kind} data-size={size} href={href}>
      {children}
    </a>
  );
}
