import type { Metadata } from 'next';
import { DirectivesSheet } from '../../../features/programme/directives-sheet.tsx';

export const metadata: Metadata = { title: 'Directives and bulletins' };

export default function DirectivesPage() {
  return <DirectivesSheet />;
}
