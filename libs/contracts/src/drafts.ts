import { allergen, differenceType, problems } from '@bakehouse/kernel';
import { loosenedPoint } from '@bakehouse/records';
import * as z from 'zod';

const codes = Object.keys(problems) as (keyof typeof problems)[]; // keys of a constant object: TypeScript widens them to string
const instant = z.iso.datetime();

/** Somebody by id, with the name as it is known now. */
export const namedPerson = z.object({ person: z.uuid(), name: z.string().nullable() });
/** Who signed a version, when, and in what meaning; null where the record's body was withheld. */
export const signedBy = namedPerson.extend({ at: instant, meaning: z.string() });

/** The text of a draft. It may be half made: what is missing is listed, not refused. */
export const draftContent = z
  .record(z.string(), z.unknown())
  .meta({ id: 'DraftContent', description: 'as the payload of its signed kind without id and number; may be incomplete' });

export const difference = z
  .object({
    path: z.array(z.string()).meta({ description: 'keys, and what identifies a member of a list' }),
    type: differenceType,
    before: z.unknown().optional(),
    after: z.unknown().optional(),
  })
  .meta({ id: 'Difference' });

export const draftProblem = z
  .object({
    field: z.string(),
    problem: z.enum(codes),
    title: z.string(),
    acceptable: z.string().nullable(),
  })
  .meta({ id: 'DraftProblem' });

export const draftHead = z.object({
  id: z.uuid(),
  subject: z.uuid().meta({ description: 'the formula, or the series of the plan' }),
  basedOn: z.uuid().nullable().meta({ description: 'the version that it was made from' }),
  name: z.string(),
  revision: z.int(),
  madeBy: namedPerson,
  madeAt: instant,
  by: namedPerson,
  at: instant,
  archived: z.boolean(),
});
export const draftList = z.array(draftHead).meta({ id: 'DraftList' });
export type DraftList = z.infer<typeof draftList>;

const againstInForce = z
  .object({ version: z.uuid(), number: z.int(), differences: z.array(difference) })
  .nullable()
  .meta({ description: 'what differs from the newest approved version; null where there is none' });
const whole = draftHead.extend({
  content: draftContent,
  problems: z.array(draftProblem),
  ready: z.boolean(),
  nextNumber: z.int(),
  against: againstInForce,
  others: z
    .array(z.object({ id: z.uuid(), by: namedPerson, at: instant }))
    .meta({ description: 'other open drafts of the same formula or plan' }),
  caution: z.string(),
});
/** What every draft's view says. */
export type DraftView = z.infer<typeof whole>;

export const allergenAnswer = z.object({
  contains: z.array(allergen),
  mayContain: z.array(allergen),
  notKnown: z.array(z.string()).meta({ description: 'with any of these the answer is “not known”, never “no”' }),
  checkedSince: z.iso
    .date()
    .nullable()
    .meta({ description: 'the oldest check of a specification that absence rests on; null where absence cannot be said' }),
});

export const formulaDraftView = whole
  .extend({
    figures: z.object({
      totalMg: z.int(),
      flourMg: z.int(),
      percents: z
        .array(z.number().nullable())
        .meta({ description: 'of all flours on the lines together, line by line; null where no line is flour' }),
    }),
    allergens: allergenAnswer,
  })
  .meta({ id: 'FormulaDraft' });
export type FormulaDraftView = z.infer<typeof formulaDraftView>;
export const planDraftView = whole
  .extend({
    loosened: z.array(loosenedPoint).nullable().meta({
      description:
        'null while it cannot be read yet; what it lets through that the plan in force does not: each needs why, and what that rests on, in the draft’s `loosened`',
    }),
    warnings: z
      .array(z.object({ point: z.string(), name: z.string(), text: z.string() }))
      .meta({ description: 'what a competent person has to look at; nothing is forbidden by it' }),
  })
  .meta({ id: 'PlanDraft' });
export type PlanDraftView = z.infer<typeof planDraftView>;

/** The conflict that a person gets who saves under an older revision; none of their text is lost. */
export const draftConflict = z
  .object({
    type: z.url(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string(),
    conflict: z.object({
      revision: z.int().meta({ description: 'the newest, to save under next' }),
      by: namedPerson,
      at: instant,
      archived: z.boolean(),
      base: draftContent.nullable().meta({ description: 'the revision that both started from; null where there is no such revision' }),
      mine: draftContent,
      theirs: draftContent,
      theyChanged: z.array(difference),
      iChanged: z.array(difference),
      bothChanged: z.array(z.array(z.string())).meta({ description: 'fields that both changed' }),
    }),
  })
  .meta({ id: 'DraftConflict', description: 'problem+json with both texts' });
export type DraftConflict = z.infer<typeof draftConflict>;

/** What is signed with the PIN and sent through the door. */
export const toSign = z
  .object({
    kind: z.string(),
    version: z.int(),
    payload: z.record(z.string(), z.unknown()),
    meaning: z.string(),
    revision: z.int(),
    against: againstInForce,
    caution: z.string(),
  })
  .meta({ id: 'ToSign' });
export type ToSign = z.infer<typeof toSign>;
