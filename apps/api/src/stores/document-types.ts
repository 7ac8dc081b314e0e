import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';

builder.prismaNode('LotDocument', {
  id: { field: 'id' },
  description: 'A release certificate as photo or PDF, kept as it came.',
  fields: (t) => ({
    url: t.string({
      description: 'Where it is fetched.',
      select: { id: true },
      resolve: ({ id }) => `/certificates/${globalId('LotDocument', id)}`,
    }),
    name: t.exposeString('name', { description: 'What the file was called when it came.' }),
    mime: t.exposeString('mime', { description: 'application/pdf or image/jpeg.' }),
    bytes: t.exposeInt('bytes', { description: 'Its size.' }),
    sha256: t.string({
      description: 'Digest of its bytes, hexadecimal.',
      select: { sha256: true },
      resolve: ({ sha256 }) => sha256.trim(),
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was kept.' }),
    by: t.relation('by', { description: 'Who kept it.' }),
  }),
});

builder.prismaObjectFields('Lot', (t) => ({
  documents: t.relation('documents', {
    description: 'Its release certificate, page by page where it was photographed so.',
    query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
  }),
  hasTrace: t.boolean({
    description:
      'Whether the number or a document of its release certificate is kept. One without is issued only for a reason, by name.',
    select: { tag: true, documents: { select: { id: true }, take: 1 } },
    resolve: ({ tag, documents }) => tag !== '' || documents.length > 0,
  }),
}));
