import type { Party, Seller } from '@fairlead/money/e-invoice';
import { builder } from '../builder.ts';
import { addressColumns, addressOf, PostalAddressType } from '../postal-address.ts';

type Kept = { [Field in keyof Seller]?: Seller[Field] | null };

/** A party as it is kept, without what is null: where it was not known when the invoice was issued it is left out. */
const InvoicePartyType = builder.objectRef<Kept>('InvoiceParty').implement({
  description: 'Who bills, or who is billed: as they were when it was issued; for a draft, as now.',
  fields: (t) => ({
    name: t.string({
      description: 'As the invoice names them.',
      resolve: ({ name }) => name ?? '',
    }),
    postalAddress: t.field({
      type: PostalAddressType,
      nullable: true,
      description: 'Where they live; null where that was not known.',
      resolve: ({ addressLine1, addressLine2, city, postcode, country }) =>
        addressOf({
          addressLine1: addressLine1 ?? null,
          addressLine2: addressLine2 ?? null,
          city: city ?? null,
          postcode: postcode ?? null,
          country: country ?? null,
        }),
    }),
    vatNumber: t.string({
      nullable: true,
      description: 'Of who bills (BT-31).',
      resolve: ({ vatNumber }) => vatNumber ?? null,
    }),
    taxNumber: t.string({
      nullable: true,
      description: 'Of who bills: another registration for tax (BT-32).',
      resolve: ({ taxNumber }) => taxNumber ?? null,
    }),
    registrationNumber: t.string({
      nullable: true,
      description: 'Of who bills: the registration of the business (BT-30).',
      resolve: ({ registrationNumber }) => registrationNumber ?? null,
    }),
  }),
});

builder.prismaObjectField('Invoice', 'seller', (t) =>
  t.field({
    type: InvoicePartyType,
    description: 'Who bills.',
    select: { seller: true },
    resolve: async ({ seller }, _, { read }) =>
      (seller as Seller | null) ??
      read.shop.findFirstOrThrow({
        select: {
          name: true,
          ...addressColumns,
          vatNumber: true,
          taxNumber: true,
          registrationNumber: true,
        },
      }),
  }),
);

builder.prismaObjectField('Invoice', 'buyer', (t) =>
  t.field({
    type: InvoicePartyType,
    description: 'Who is billed.',
    select: { buyer: true, contact: { select: { name: true, ...addressColumns } } },
    resolve: ({ buyer, contact }) => (buyer as Party | null) ?? contact,
  }),
);
