export { allergen, allergenCalled, allergenMappingNotes, annexTwo, usNine, type Allergen, type AllergenEntry } from './allergens.js';
export { amountOf, canonicalOf, moreThanNothing, type Observed } from './amounts.js';
export { caution } from './caution.js';
export { collection, type Collection, type Visibility } from './collection.js';
export { derivedId } from './derived-id.js';
export { differences, differenceType, type Difference } from './differences.js';
export { isEnded } from './ended.js';
export { sumOfKnown } from './sum-of-known.js';
export {
  certainty,
  envelope,
  maxAfter,
  precision,
  when,
  word,
  type Certainty,
  type Entry,
  type Envelope,
  type Input,
  type Precision,
  type Signature,
  type Stamp,
} from './entry.js';
export {
  amountFigure,
  canonicalInteger,
  code,
  day as calendarDay,
  figure,
  how,
  id,
  instant,
  instantWithOffset,
  largest,
  name,
  observed,
  temperature,
  type How,
} from './fields.js';
export { grouped } from './grouped.js';
export { earliestOf, happened, isAhead, latestOf, timeDoubt, type Happened, type TimeDoubt } from './happened.js';
export { readJson } from './json.js';
export { guardedVerdict, judge, type GuardedVerdict } from './judge.js';
export {
  decided,
  kindsOver,
  type AnyKind,
  type Context,
  type Decided,
  type Kind,
  type KindSpec,
  type NamedBook,
  type Previous,
  type ReadEntry,
} from './kind.js';
export { malformed } from './malformed.js';
export { merge, overlapping, type Clash, type Merged } from './merge.js';
export { newEnvelope, type EnvelopeParts, type SentEnvelope } from './new-envelope.js';
export { byText, byTime, inOrder, latest } from './order.js';
export { permission, permissionsOf, role, type Permission, type Role } from './permissions.js';
export { problems, type ProblemCode } from './problems.js';
export { refuse, type Outcome, type Problem, type Refused } from './refusal.js';
export { celsiusText, countText, minutesText, observedText, quantityText, secondsText, unitText } from './quantity-text.js';
export { missingWord, saysSomething } from './required-word.js';
export type { ChangeIn, ContentIn, LookupIn, NameIn, NeedIn, Registry, RowIn, StateIn } from './state.js';
export { unitTable, type UnitDefinition } from './unit-table.js';
export { unitCalled, unitOr } from './unit-words.js';
export {
  canConvert,
  canonical,
  compareExact,
  convertDifference,
  convertExact,
  dimensionOf,
  formatGrams,
  temperatureUnits,
  unit,
  unitNames,
  unitsOf,
  type Dimension,
  type Quantity,
  type Unit,
} from './units.js';
export { upcaster, type Upcaster, type Upcasters } from './upcast.js';
export {
  dayBounds,
  dayOfWeek,
  dayOfYear,
  daysAfter,
  dayText,
  isZone,
  lastShown,
  localDay,
  onTheWall,
  hoursAfter,
  minutesAfter,
  secondsBetween,
  siteDay,
  spanText,
  wallClock,
  wallFigures,
  wallTime,
  type WallClock,
} from './wall-time.js';
