import createFetchClient, { type Client } from 'openapi-fetch';
import type { components, paths } from './generated/types.js';

export type { components, paths };
export type ApiClient = Client<paths>;

/** A typed client of the API at an address, signed on with a token where one is given. Answers are checked against types only, not at run time. */
export function apiClient(baseUrl: string, token?: string): ApiClient {
  return createFetchClient<paths>({ baseUrl, ...(token === undefined ? {} : { headers: { authorization: `Bearer ${token}` } }) });
}
