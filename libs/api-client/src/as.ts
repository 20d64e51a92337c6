import { problems } from '@bakehouse/kernel';
import type { Reply } from './reply.js';

/** A token to ask with; null goes by the browser's cookie; undefined where nobody is signed on for whom it would be. */
export type Token = string | null | undefined;

/** Sends a request as one person: finds their token and updates the tokens from the reply. */
export type As = <T>(once: (token: Token) => Promise<Reply<T>>) => Promise<Reply<T>>;

/** The tokens that a device holds. */
export interface Tokens {
  /** @throws where it would have to be fetched and the service cannot be reached */
  tokenFor(person: string): Promise<Token>;
  /** That token is not good any more. */
  tokenFailed(person: string): void;
}

/** In one person's name, or by the cookie where nobody is signed on for them. A token that is not good any more is forgotten: the next try signs on anew. */
export const inNameOf =
  (tokens: Tokens, person: string): As =>
  async (once) => {
    let token: Token;
    try {
      token = await tokens.tokenFor(person);
    } catch {
      return { as: 'unreachable' };
    }
    const reply = await once(token);
    if (reply.as === 'problem' && reply.status === 401) tokens.tokenFailed(person);
    return reply;
  };

/** In one person's name and in no other: asks nothing where nobody is signed on for them. */
export const onlyInNameOf = (tokens: Tokens, person: string): As => {
  const as = inNameOf(tokens, person);
  return (once) => as((token) => (token === undefined ? Promise.resolve(notSignedOn) : once(token)));
};

const { status, ...said } = problems['not-signed-on'];
const notSignedOn = { as: 'problem', status, problem: { problem: 'not-signed-on', ...said }, document: null } as const;
