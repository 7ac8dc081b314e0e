import type { Metadata } from 'next';
import { OutsideSheet } from '../../../features/stores/outside/outside-sheet.tsx';

export const metadata: Metadata = { title: 'Out with others' };

export default function OutsidePage() {
  return <OutsideSheet />;
}
