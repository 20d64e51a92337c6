import * as z from 'zod';
import { ask, type Reply } from './api';

/** A file from the service, or what stands against it in words. */
export async function fileFrom(path: string, token: string | null | undefined): Promise<Reply<Blob>> {
  try {
    const response = await fetch(`/api/v1${path}`, {
      signal: AbortSignal.timeout(60_000),
      headers: token ? { authorization: `Bearer ${token}` } : {},
    });
    if (response.ok) return { as: 'ok', value: await response.blob() };
    return await ask(path, z.instanceof(Blob), { token }); // the same question again, for what stands against it in words
  } catch {
    return { as: 'unreachable' };
  }
}
