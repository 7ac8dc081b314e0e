import { graphql } from '../../graphql/document.ts';

export const ChangeShopDocument = graphql(`
  mutation ChangeShop($input: ChangeShopInput!) {
    changeShop(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const AddPersonDocument = graphql(`
  mutation AddPerson($input: AddPersonInput!) {
    addPerson(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on AddedPerson {
        person {
          id
          name
        }
        invitation {
          email
          path
          expiresAt
        }
      }
    }
  }
`);
export const InvitePersonDocument = graphql(`
  mutation InvitePerson($input: InvitePersonInput!) {
    invitePerson(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Invitation {
        email
        path
        expiresAt
      }
    }
  }
`);
export const ChangePersonDocument = graphql(`
  mutation ChangePerson($input: ChangePersonInput!) {
    changePerson(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const DeactivatePersonDocument = graphql(`
  mutation DeactivatePerson($input: PersonAsReadInput!) {
    deactivatePerson(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const TakeBackPersonDocument = graphql(`
  mutation TakeBackPerson($input: PersonAsReadInput!) {
    takeBackPerson(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const AddCertificateDocument = graphql(`
  mutation AddCertificate($input: AddCertificateInput!) {
    addCertificate(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const EndCertificateDocument = graphql(`
  mutation EndCertificate($input: EndCertificateInput!) {
    endCertificate(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const AddLabourRateDocument = graphql(`
  mutation AddLabourRate($input: AddLabourRateInput!) {
    addLabourRate(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const AddTaxRateDocument = graphql(`
  mutation AddTaxRate($input: AddTaxRateInput!) {
    addTaxRate(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const SetWeekDocument = graphql(`
  mutation SetWeek($input: SetWeekInput!) {
    setWeek(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const AddExceptionDocument = graphql(`
  mutation AddException($input: AddExceptionInput!) {
    addException(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);
export const RemoveExceptionDocument = graphql(`
  mutation RemoveException($input: RemoveExceptionInput!) {
    removeException(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export const SetStorageRuleDocument = graphql(`
  mutation SetStorageRule($input: SetStorageRuleInput!) {
    setStorageRule(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Shop {
        id
      }
    }
  }
`);
