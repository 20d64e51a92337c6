import * as z from 'zod';

export interface NumberList {
  readonly least: number;
  readonly most: number;
  readonly min: number;
  readonly max: number;
  /** What the list must be, what it says about its length, and what each figure must be. */
  readonly list: string;
  readonly length: string;
  readonly figure: string;
  readonly description: string;
}
interface Fault {
  readonly path: readonly number[];
  readonly message: string;
}

function faultIn(raw: unknown, is: NumberList): Fault | null {
  if (!Array.isArray(raw)) return { path: [], message: is.list };
  if (raw.length < is.least || raw.length > is.most) return { path: [], message: is.length };
  for (let i = 0; i < raw.length; i++) {
    const figure: unknown = raw[i];
    if (!(typeof figure === 'number' && figure >= is.min && figure <= is.max)) return { path: [i], message: is.figure }; // NaN fails
  }
  return null;
}

/** A list of numbers, looked through in one pass that stops at the first bad one: a million bad figures must not become a million complaints. */
export function numberList(is: NumberList): z.ZodType<number[]> {
  return z
    .any()
    .superRefine((raw: unknown, context) => {
      const fault = faultIn(raw, is);
      if (fault !== null) context.addIssue({ code: 'custom', path: [...fault.path], message: fault.message });
    })
    .meta({
      description: is.description,
      type: 'array',
      minItems: is.least,
      maxItems: is.most,
      items: { type: 'number', minimum: is.min, maximum: is.max },
    });
}
