import type { Reply } from '@bakehouse/api-client';

export interface Trouble {
  /** Its code, where it is the service's answer. */
  readonly problem?: string;
  readonly title: string;
  readonly detail: string;
}

/** What to say of a request that was not answered as hoped: the service's own words, or that it cannot be reached and what that means here. */
export const troubleOf = (reply: Exclude<Reply<unknown>, { readonly as: 'ok' }>, unreached: string): Trouble =>
  reply.as === 'problem'
    ? reply.problem
    : reply.slow === true
      ? { title: 'The bakehouse’s computer is slow', detail: 'No answer came in time. It may be busy: try again in a moment.' }
      : { title: 'The bakehouse’s computer cannot be reached', detail: unreached };
