import type { Metadata } from 'next';
import { PostSheet } from '../../../features/post/post-sheet.tsx';

export const metadata: Metadata = { title: 'Post' };

export default function PostPage() {
  return <PostSheet />;
}
