import type { Metadata } from 'next';
import { PinSheet } from '../../../features/people/pin-sheet.tsx';

export const metadata: Metadata = { title: 'Your PIN' };

export default function PinPage() {
  return <PinSheet />;
}
