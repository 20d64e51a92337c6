import * as z from 'zod';

/** A problem as it comes over the wire, its name without the address before it. */
export interface WireProblem {
  readonly problem: string;
  readonly title: string;
  readonly detail: string;
  readonly field?: string | undefined;
  readonly acceptable?: string | undefined;
}

export type Reply<T> =
  | { readonly as: 'ok'; readonly value: T }
  /** No network, no service, or no sensible answer; `status`, where something else answered, a proxy for example; `slow`, where no answer came in time. */
  | { readonly as: 'unreachable'; readonly status?: number; readonly slow?: true }
  | {
      readonly as: 'problem';
      readonly status: number;
      readonly problem: WireProblem;
      /** The whole document, for what it says beyond its usual members. */
      readonly document: unknown;
      /** How long the service asks to be left alone. */
      readonly afterMs?: number | undefined;
    };

const problemJson = z.object({
  type: z.string(),
  title: z.string(),
  detail: z.string(),
  field: z.string().optional(),
  acceptable: z.string().optional(),
});

/**
 * What came back, read. Whatever is neither the expected answer nor problem+json counts as not reached: a hotel's network answers 200 to everything.
 */
export function replyOf<S extends z.ZodType>(response: Response, body: unknown, schema: S): Reply<z.output<S>> {
  if (response.ok) {
    const read = schema.safeParse(body);
    return read.success ? { as: 'ok', value: read.data } : { as: 'unreachable' };
  }
  const { data } = problemJson.safeParse(body);
  if (!data) return { as: 'unreachable', status: response.status };
  const { type, ...said } = data;
  const again = Number(response.headers.get('retry-after'));
  return {
    as: 'problem',
    status: response.status,
    problem: { problem: type.slice(type.lastIndexOf('/') + 1), ...said },
    document: body,
    ...(again > 0 ? { afterMs: again * 1000 } : {}),
  };
}
