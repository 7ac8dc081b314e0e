export {
  type Caution,
  type CautionPlace,
  cautionsOn,
  type Hazard,
  hazards,
  standingCautions,
} from './cautions.ts';
export {
  type Certificate,
  type CertificateKind,
  certificateNames,
  isGoodOn,
  lastDayOf,
} from './certificate.ts';
export { type CivilDate, isCivilDate } from './civil-date.ts';
export {
  type ComposedEntry,
  composeEntry,
  type EntryPlace,
  type RecordBook,
} from './compose-entry.ts';
export { type CompressionAnswer, type CompressionReading, compressionLoss } from './compression.ts';
export { type CsvLine, type CsvRead, csvLines, type RefusedCell } from './csv-lines.ts';
export {
  type AircraftAsFitted,
  type Applicability,
  applicabilityOf,
  type FittedPart,
  type Reach,
  type ReachFound,
} from './directives/applicability.ts';
export {
  readSerials,
  type SerialAnswer,
  type SerialRange,
  serialLies,
} from './directives/serials.ts';
export { type DiscrepancyListInput, discrepancyList, type ListedItem } from './discrepancy-list.ts';
export { type CivilDay, readDay, writeDay } from './due/civil-days.ts';
export {
  type Compliance,
  type Counter,
  type Counts,
  counters,
  type Due,
  type DueItem,
  type DueRule,
  type DueState,
  dueRules,
  type Interval,
  type Limit,
  type Soon,
  type Standing,
} from './due/due-item.ts';
export { type DueRequest, readDueRequest } from './due/read-request.ts';
export { standOf } from './due/stand-of.ts';
export {
  type ProjectedDay,
  projectedDay,
  projectedTogether,
  type UseOfAircraft,
  type UseReading,
  useOfAircraft,
} from './due/use-of-aircraft.ts';
export {
  type EntryDraft,
  type EntryFinding,
  type EntryItem,
  type EntrySignature,
  type GivenList,
  type InoperativeItem,
  type InspectionDone,
  type InspectionOutcome,
  inspectionNames,
  type MaintenanceDone,
} from './entry-draft.ts';
export {
  type CountedLife,
  type EntryPart,
  type EntryParts,
  missingFromParts,
  type PartDisposition,
  partDispositions,
  partLines,
} from './entry-parts.ts';
export { type FlightList, type ListedFlight, readFlightList } from './flight-list.ts';
export { type FuelLeak, fuelLeak } from './fuel-leak.ts';
export {
  type GeneralTorque,
  generalTorque,
  generalTorqueCautions,
  generalTorques,
  type NutKind,
  safetyWire,
} from './general-torques.ts';
export { formatHours, hundredths, parseHours, type TimeInService } from './hours.ts';
export {
  type InoperativeMethod,
  type InoperativeQuestion,
  type InoperativeWords,
  inoperativeLine,
  inoperativeQuestions,
  mayLeaveInoperative,
} from './inoperative.ts';
export { oldData } from './inspection/data-age.ts';
export { cautionsOfItem } from './inspection/hazards-of.ts';
export {
  type InspectedAircraft,
  type InspectionGroup,
  type InspectionItem,
  inspectionGroups,
} from './inspection/inspection-item.ts';
export {
  inspectionItems,
  type LeftOut,
  missingFromInspection,
  STARTER_DATA,
  STARTER_DATA_ON,
  type StarterPackage,
  starterPackage,
  starterPackages,
} from './inspection/starter-packages.ts';
export {
  annualDue,
  type CalendarDue,
  calendarMonthsDue,
  type HundredHourDue,
  type HundredHourStanding,
  hundredHourDue,
  hundredHourStanding,
} from './inspections-due.ts';
export {
  type KindOfWork,
  kindsOfWork,
  type StationRating,
  type WorkKind,
} from './kinds-of-work.ts';
export type { MissingElement } from './missing-element.ts';
export { missingFromEntry } from './missing-from-entry.ts';
export {
  type CountedStay,
  type CountHistory,
  partCountAt,
  partCountNow,
} from './part-count.ts';
export {
  type PartFitting,
  type PartHistory,
  type PartTimeAnswer,
  partTimeAt,
  partTimeNow,
} from './part-time.ts';
export { type CountedOn, questionCount } from './question-count.ts';
export { questionReading, type ReadOn } from './question-reading.ts';
export { type Days, evidenceLack, releaseLack, type SigningEvidence } from './signing-evidence.ts';
export { type MeterReading, type TimeInServiceAnswer, timeInService } from './time-in-service.ts';
export {
  convertTorque,
  type TorqueArm,
  type TorqueUnit,
  torqueAtFastener,
  torqueSetting,
} from './torque.ts';
export {
  type MayApprove,
  type ShopStanding,
  type Signer,
  type Work,
  whoMayApprove,
} from './who-may-approve.ts';
