import { Choice, Field } from '../ui';

/** Why a record is corrected or taken back. */
export const correctionReasons = ['wrong lot', 'mistyped', 'entered twice'] as const;
/** Why pieces were lost. */
export const lossReasons = ['burnt', 'dropped', 'foreign body'] as const;

/** Whether the reason says that something is in food that can hurt somebody who eats it. */
export const isForeignBody = (reason: string): boolean => reason.startsWith('foreign body');

interface Props {
  readonly label: string;
  /** What the words are asked with. */
  readonly words?: string;
  readonly reasons: readonly string[];
  /** The reason as it is recorded: the one that was tapped, words of one's own, or both. */
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly maxLength?: number;
}

/** A reason by one tap; words of one's own where somebody wants them. */
export function ReasonField({ label, words = 'In a few words, if you like', reasons, value, onChange, maxLength = 400 }: Props) {
  const chosen = reasons.find((r) => value === r || value.startsWith(`${r}: `)) ?? null;
  const own = chosen === null ? value : value.slice(chosen.length + 2);
  const say = (reason: string | null, text: string): void =>
    onChange(reason === null ? text : text === '' ? reason : `${reason}: ${text}`.slice(0, maxLength));
  return (
    <>
      <Choice label={label} value={chosen} onChange={(r) => say(r, own)} options={reasons.map((r) => ({ value: r, text: r }))} />
      <Field label={words} value={own} onChange={(text) => say(chosen, text)} maxLength={maxLength} />
    </>
  );
}
