/** What the arithmetic of a wrench is asked: decimals as text, with a point. */
export interface Reckoned {
  torque: string;
  drag: string | null;
  /** Lengths of the wrench and of what an adapter adds to it; both or neither. */
  lever: string | null;
  extension: string | null;
}

/**
 * What the wrench is set to, (torque + drag) · L / (L + E), to hundredths, as the shop's server records it; null where no
 * wrench can be set so. Reckoned here too, because it is needed in the hand with no network. Source: AC 43.13-1B, 7-40 h and
 * figure 7-2.
 *
 * @example settingOf({ torque: '135', drag: null, lever: '10', extension: '1.5' }) // → '117.39'
 */
export function settingOf({ torque, drag, lever, extension }: Reckoned): string | null {
  const wanted = Number(torque) + Number(drag ?? 0);
  const arm = Number(lever) + Number(extension);
  if (lever !== null && (Number(lever) <= 0 || arm <= 0)) return null;
  const setting = Number((lever === null ? wanted : (wanted * Number(lever)) / arm).toFixed(2));
  return Number(torque) > 0 && setting > 0 && setting <= 1_000_000 ? String(setting) : null;
}
