export { type Allergen, type AllergenEntry, allergen, allergenCalled, allergenMappingNotes, annexTwo, usNine } from './allergens.js';
export { type Observed, amountOf, canonicalOf } from './amounts.js';
export { caution } from './caution.js';
export { collection, type Collection, type Visibility } from './collection.js';
export { derivedId } from './derived-id.js';
export { type Difference, differences } from './differences.js';
export { isEnded } from './ended.js';
export {
  type Entry,
  type Envelope,
  type Input,
  type Precision,
  type Signature,
  type Stamp,
  envelope,
  maxAfter,
  precision,
  when,
  word,
} from './entry.js';
export {
  type How,
  amountFigure,
  day as calendarDay,
  canonicalInteger,
  code,
  figure,
  how,
  id,
  instant,
  instantWithOffset,
  largest,
  name,
  observed,
  temperature,
} from './fields.js';
export { grouped } from './grouped.js';
export { type GuardedVerdict, judge } from './judge.js';
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
export { type Clash, type Merged, merge, overlapping } from './merge.js';
export { byTime, inOrder, latest } from './order.js';
export { type Permission, type Role, permission, permissionsOf, role } from './permissions.js';
export { type Outcome, type Problem, type ProblemCode, type Refused, problems, refuse } from './problems.js';
export { celsiusText, countText, observedText, quantityText, unitText } from './quantity-text.js';
export { missingWord } from './required-word.js';
export type { ChangeIn, ContentIn, LookupIn, NameIn, NeedIn, Registry, RowIn, StateIn } from './state.js';
export { type UnitDefinition, unitTable } from './unit-table.js';
export { unitCalled, unitOr } from './unit-words.js';
export { type Upcaster, type Upcasters, upcaster } from './upcast.js';
export {
  type Dimension,
  type Quantity,
  type Unit,
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
} from './units.js';
export {
  type WallClock,
  dayBounds,
  dayOfWeek,
  dayOfYear,
  dayText,
  daysAfter,
  isZone,
  lastShown,
  localDay,
  onTheWall,
  secondsBetween,
  siteDay,
  wallClock,
  wallFigures,
  wallTime,
} from './wall-time.js';
export { newEnvelope, type EnvelopeParts, type SentEnvelope } from './new-envelope.js';
