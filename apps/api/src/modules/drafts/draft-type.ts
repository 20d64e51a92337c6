import type { DraftView } from '@bakehouse/contracts';
import type { Permission } from '@bakehouse/kernel';
import type { DraftProblem, NewEntryOf } from '@bakehouse/records';
import type * as z from 'zod';
import type { Transaction } from '../../platform/database/index.js';
import type { Content, DraftName, DraftRow } from './drafts.query.js';

/** What a new draft begins with. */
export interface Beginning {
  readonly subject: string;
  readonly basedOn: string | null;
  readonly content: Content;
}

/** A kind that a finished draft is signed as, with its payload. */
export type Signable = { [K in 'formula-approved' | 'plan-approved']: Pick<NewEntryOf<K>, 'kind' | 'payload'> }[
  'formula-approved' | 'plan-approved'];

/** What is found out about the text of a draft; `more` is what its view says beside what every draft's says. */
export interface About<More extends object> {
  readonly problems: readonly DraftProblem[];
  /** The newest version that was approved, its text in the form of a draft's. */
  readonly newest: { readonly id: string; readonly number: number; readonly text: Content } | undefined;
  readonly more: More;
}

/** What a type of draft is kept and shown by. */
export interface ShownAs<More extends object> {
  readonly type: DraftName;
  /** What a text says that it is called. */
  nameOf(content: Content): unknown;
  about(client: Transaction, organisation: string, draft: DraftRow, now: string): Promise<About<More>>;
  /** What is signed, of a text that nothing stands against. */
  toSign(subject: string, number: number, content: Content): Signable;
}

/** One type of draft, described: everything in which drafts of formulas and drafts of plans differ. */
export interface DraftType<Request extends { readonly id: string }, More extends object> extends ShownAs<More> {
  /** What its controller is called in the API's description. */
  readonly controller: string;
  readonly tag: string;
  readonly path: string;
  readonly permission: Permission;
  readonly summaries: { readonly make: string; readonly show: string };
  readonly request: z.ZodType<Request>;
  readonly view: z.ZodType<DraftView & More>;
  /** @throws ProblemException where it is to begin with a version that is not there */
  begin(client: Transaction, organisation: string, request: Request): Promise<Beginning>;
}
