import type { Metadata } from 'next';
import { BooksSheet } from '../../features/books/books-sheet.tsx';

export const metadata: Metadata = { title: 'Books' };

export default function BooksPage() {
  return <BooksSheet />;
}
