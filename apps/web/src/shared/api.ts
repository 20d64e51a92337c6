import type { WireProblem } from '@bakehouse/offline';
import * as z from 'zod';

export type Reply<T> =
  | { readonly as: 'ok'; readonly value: T }
  /** No network, no service, or no sensible answer. */
  | { readonly as: 'unreachable' }
  | { readonly as: 'problem'; readonly status: number; readonly problem: WireProblem };

export interface Ask {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'DELETE';
  readonly body?: unknown;
  readonly token?: string | null | undefined;
  readonly timeoutMs?: number;
  /** The revision that a change is made from, as an entity tag. */
  readonly ifMatch?: string;
  /** What a problem says beyond its usual members. */
  readonly onProblem?: (answer: unknown) => void;
}

const problemJson = z.object({
  type: z.string(),
  title: z.string(),
  detail: z.string(),
  field: z.string().optional(),
  acceptable: z.string().optional(),
});

/** Asks the service. Whatever is neither the expected answer nor problem+json counts as not reached: a hotel's network answers 200 to everything. */
export async function ask<S extends z.ZodType>(
  path: string,
  schema: S,
  { method = 'GET', body, token, timeoutMs = 10_000, ifMatch, onProblem }: Ask = {},
): Promise<Reply<z.output<S>>> {
  try {
    const response = await fetch(`/api/v1${path}`, {
      method,
      signal: AbortSignal.timeout(timeoutMs),
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      headers: {
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...(token ? { authorization: `Bearer ${token}` } : {}),
        ...(ifMatch === undefined ? {} : { 'if-match': ifMatch }),
      },
    });
    const answer: unknown = response.status === 204 ? null : await response.json();
    if (response.ok) {
      const read = schema.safeParse(answer);
      return read.success ? { as: 'ok', value: read.data } : { as: 'unreachable' };
    }
    const { data } = problemJson.safeParse(answer);
    if (!data) return { as: 'unreachable' };
    onProblem?.(answer);
    const { type, title, detail, field, acceptable } = data;
    return {
      as: 'problem',
      status: response.status,
      problem: { problem: type.slice(type.lastIndexOf('/') + 1), title, detail, field, acceptable },
    };
  } catch {
    return { as: 'unreachable' };
  }
}
