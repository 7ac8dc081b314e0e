import { graphql } from '../../graphql/document.ts';
import type { ShopSheetQuery } from '../../graphql/generated/graphql.ts';

export const ShopSheetDocument = graphql(`
  query ShopSheet {
    shopSheet {
      __typename
      ... on Refusal {
        code
        message
      }
      ... on ShopSheet {
        today
        currencyStays
        lastChange {
          at
          by
        }
        shop {
          id
          version
          name
          place
          postalAddress {
            line1
            line2
            city
            postcode
            country
          }
          email
          vatNumber
          taxNumber
          registrationNumber
          exemptionReason
          timeZone
          currency
          standing
          certificateNumber
          clearanceMm
          billingStep
          billingRounding
          storageRule {
            freeDays
            dayPrice
          }
          billingMinimum
          overrunMinor
          overrunPercent
          timeInServiceBasis
        }
        people {
          clockRuns
          signIn {
            email
            invitedUntil
          }
          lastChange {
            at
            by
          }
          person {
            id
            version
            name
            initials
            roles
            apprentice
            active
          }
          certificates {
            restsOnIt
            certificate {
              id
              kind
              number
              validFrom
              validUntil
            }
          }
        }
        labourRates {
          lastChange {
            at
            by
          }
          rate {
            id
            kind
            rate
            validFrom
          }
        }
        taxRates {
          lastChange {
            at
            by
          }
          rate {
            id
            category
            code
            rate
            validFrom
          }
        }
        week {
          id
          personId
          weekday
          fromMinute
          toMinute
        }
        exceptions {
          id
          personId
          firstDay
          lastDay
          fromMinute
          toMinute
          reason
        }
        ahead {
          day
          closed
          present {
            name
            minutes
          }
          away {
            name
            reason
          }
        }
        changes {
          id
          at
          by
          about
          words
        }
      }
    }
  }
`);

export type ShopSheet = Extract<ShopSheetQuery['shopSheet'], { __typename: 'ShopSheet' }>;
export type PersonOnSheet = ShopSheet['people'][number];
export type CertificateOnSheet = PersonOnSheet['certificates'][number];
