import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addCertificate } from './add-certificate.ts';
import { addPerson } from './add-person.ts';
import { changePerson } from './change-person.ts';
import { deactivatePerson } from './deactivate-person.ts';
import { endCertificate } from './end-certificate.ts';
import { invitePerson } from './invite-person.ts';
import type { MadeInvitation } from './make-invitation.ts';
import { setContactAddress } from './set-contact-address.ts';
import { setContactEmail } from './set-contact-email.ts';
import {
  AddCertificateInput,
  AddPersonInput,
  ChangePersonInput,
  EndCertificateInput,
  InvitePersonInput,
  PersonAsReadInput,
  SetContactAddressInput,
  SetContactEmailInput,
} from './settings-inputs.ts';
import { InvitationType } from './settings-types.ts';
import { takeBackPerson } from './take-back-person.ts';

const AddedPerson = builder
  .objectRef<{ personId: string; invitation: MadeInvitation | null }>('AddedPerson')
  .implement({
    description: 'Somebody who was added, with their invitation.',
    fields: (t) => ({
      person: t.prismaField({
        type: 'Person',
        description: 'Who.',
        resolve: (query, { personId }, _, { read }) =>
          read.person.findUniqueOrThrow({ ...query, where: { id: personId } }),
      }),
      invitation: t.field({
        type: InvitationType,
        nullable: true,
        description: 'Null where no address was given.',
        resolve: ({ invitation }) => invitation,
      }),
    }),
  });
const PersonLeft = builder
  .objectRef<{ personId: string; clockStopped: boolean }>('PersonLeft')
  .implement({
    description: 'Somebody who left.',
    fields: (t) => ({
      person: t.prismaField({
        type: 'Person',
        description: 'Who.',
        resolve: (query, { personId }, _, { read }) =>
          read.person.findUniqueOrThrow({ ...query, where: { id: personId } }),
      }),
      clockStopped: t.exposeBoolean('clockStopped', {
        description: 'Their clock ran and was stopped.',
      }),
    }),
  });

builder.mutationFields((t) => ({
  setContactAddress: t.prismaField({
    type: 'Contact',
    errors: {},
    description:
      "Sets a contact's postal address; an issued invoice keeps its own. For the front desk and the manager.",
    args: {
      input: t.arg({ type: SetContactAddressInput, required: true, description: 'Whose.' }),
    },
    resolve: async (query, _, { input: { contactId, postalAddress = null } }, context) => {
      const id = await setContactAddress(context, {
        contactId: keyOf('Contact', contactId, 'contactId'),
        postalAddress,
      });
      return context.read.contact.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  setContactEmail: t.prismaField({
    type: 'Contact',
    errors: {},
    description: "Sets where a contact's mail goes. For the front desk and the manager.",
    args: {
      input: t.arg({ type: SetContactEmailInput, required: true, description: 'Whose.' }),
    },
    resolve: async (query, _, { input: { contactId, email = null } }, context) => {
      const id = await setContactEmail(context, {
        contactId: keyOf('Contact', contactId, 'contactId'),
        email,
      });
      return context.read.contact.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addPerson: t.field({
    type: AddedPerson,
    errors: {},
    description: 'Adds somebody to the shop, with an invitation where an address is given.',
    args: { input: t.arg({ type: AddPersonInput, required: true, description: 'Who.' }) },
    resolve: (_, { input: { email = null, ...given } }, context) =>
      addPerson(context, { ...given, email }),
  }),
  invitePerson: t.field({
    type: InvitationType,
    errors: {},
    description: 'Makes a new invitation for somebody who has no sign-in.',
    args: { input: t.arg({ type: InvitePersonInput, required: true, description: 'Whom.' }) },
    resolve: (_, { input: { personId, email, byMail } }, context) =>
      invitePerson(context, {
        personId: keyOf('Person', personId, 'personId'),
        email,
        byMail: byMail ?? false,
      }),
  }),
  changePerson: t.prismaField({
    type: 'Person',
    errors: {},
    description: 'Changes what somebody is in the shop; it counts from their next request on.',
    args: { input: t.arg({ type: ChangePersonInput, required: true, description: 'All of it.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await changePerson(context, {
        ...input,
        personId: keyOf('Person', input.personId, 'personId'),
      });
      return context.read.person.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  deactivatePerson: t.field({
    type: PersonLeft,
    errors: {},
    description: 'Somebody leaves: their clock stops and their sign-in ends at once.',
    args: { input: t.arg({ type: PersonAsReadInput, required: true, description: 'Who.' }) },
    resolve: (_, { input: { personId, expectedVersion } }, context) =>
      deactivatePerson(context, {
        personId: keyOf('Person', personId, 'personId'),
        expectedVersion,
      }),
  }),
  takeBackPerson: t.prismaField({
    type: 'Person',
    errors: {},
    description: 'Somebody who left works here again; they need a new invitation.',
    args: { input: t.arg({ type: PersonAsReadInput, required: true, description: 'Who.' }) },
    resolve: async (query, _, { input: { personId, expectedVersion } }, context) => {
      const id = await takeBackPerson(context, {
        personId: keyOf('Person', personId, 'personId'),
        expectedVersion,
      });
      return context.read.person.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addCertificate: t.prismaField({
    type: 'Certificate',
    errors: {},
    description: 'Adds what somebody holds; a renewed one is a new one.',
    args: { input: t.arg({ type: AddCertificateInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const { validUntil = null, ...given } = input;
      const id = await addCertificate(context, {
        ...given,
        validUntil,
        personId: keyOf('Person', input.personId, 'personId'),
      });
      return context.read.certificate.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  endCertificate: t.prismaField({
    type: 'Certificate',
    errors: {},
    description: 'Sets the last day of a certificate; not before what was signed on it.',
    args: { input: t.arg({ type: EndCertificateInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input: { certificateId, lastDay } }, context) => {
      const id = await endCertificate(context, {
        certificateId: keyOf('Certificate', certificateId, 'certificateId'),
        lastDay,
      });
      return context.read.certificate.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
