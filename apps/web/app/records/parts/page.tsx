import type { Metadata } from 'next';
import { PartsSheet } from '../../../features/programme/parts-sheet.tsx';

export const metadata: Metadata = { title: 'Parts with times' };

export default function PartsPage() {
  return <PartsSheet />;
}
