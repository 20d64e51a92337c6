import { dayText } from '@bakehouse/kernel';
import {
  looseningText,
  phrase,
  type ChoiceText,
  type LoosenedAsApproved,
  type LoosenedPoint,
  type PhraseKey,
  type Validation,
} from '@bakehouse/records';

type NameOf = (id: string) => string | undefined;
const onScreen: ChoiceText = (group, value) => phrase(`${group}.${value}` as PhraseKey); // the group's own values

/** `Core, pork pie: 75 °C or more → 40 °C or more`. */
export const loosenedText = (
  { name, changes }: Pick<LoosenedPoint, 'name' | 'changes'>,
  nameOf?: NameOf,
  say: ChoiceText = onScreen,
): string => `${name}: ${changes.map((change) => looseningText(change, say, nameOf)).join('; ')}`;

/** Why it was loosened, and what that rests on, as it was approved. */
export const looseningBasisText = ({
  reason,
  validatedBy,
  evidence,
  validatedOn,
}: Omit<LoosenedAsApproved, 'point' | 'name' | 'changes'>): string =>
  `Why: ${stopped(reason)} Validated by ${validatedBy} on ${dayText(validatedOn)}, on: ${stopped(evidence)}`;

const stopped = (typed: string): string => `${typed.trim().replace(/\.+$/, '')}.`;

/** Who validated a limit and when; where nobody has said so, that. */
export const validationText = (of: Validation | null): string =>
  of === null
    ? 'nobody has recorded a validation'
    : of.evidence === null
      ? `validated by ${of.by}, ${dayText(of.on)}`
      : `for the limit as it was loosened, ${of.by} is stated to have validated it on ${dayText(of.on)}, on: ${of.evidence.trim().replace(/\.+$/, '')}`;
