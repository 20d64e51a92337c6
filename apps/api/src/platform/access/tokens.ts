import { randomToken, tokenHash } from '../ids/index.js';

/** A token as it is handed out, and what is stored of it. */
export interface Minted {
  readonly token: string;
  readonly hash: Buffer;
}

/** A token that came in: whose fence it opens, and what to look for behind it. */
export interface Presented {
  readonly organisation: string;
  readonly hash: Buffer;
}

const form = /^([0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})\.[A-Za-z0-9_-]{1,64}$/;

/** A new secret that carries its organisation in front, so that it is looked up inside that organisation's fence. */
export function mintToken(organisation: string, secret = randomToken()): Minted {
  const token = `${organisation}.${secret}`;
  return { token, hash: tokenHash(token) };
}

/** Reads a token's form; undefined for anything that was never one. */
export function readToken(text: string | undefined): Presented | undefined {
  const organisation = text === undefined ? undefined : form.exec(text)?.[1];
  return text === undefined || organisation === undefined ? undefined : { organisation, hash: tokenHash(text) };
}
