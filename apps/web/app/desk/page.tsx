import type { Metadata } from 'next';
import { DeskSheet } from '../../features/quoting/desk-sheet.tsx';

export const metadata: Metadata = { title: 'Front desk' };

export default function DeskPage() {
  return <DeskSheet />;
}
