import type { Metadata } from 'next';
import { ClocksSheet } from '../../../features/hours/clocks/ClocksSheet.tsx';

export const metadata: Metadata = { title: 'Clocks' };

export default function ClocksPage() {
  return <ClocksSheet />;
}
