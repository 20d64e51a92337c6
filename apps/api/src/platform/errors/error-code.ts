/** The code that Node's, PostgreSQL's and Fastify's errors carry. By form, not by class: an error may come from another realm. */
export function errorCode(error: unknown): string | undefined {
  return typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}

/** An error's message, or what was thrown instead of one, as words. */
export function errorMessage(error: unknown): string {
  return typeof error === 'object' && error !== null && 'message' in error && typeof error.message === 'string'
    ? error.message
    : String(error);
}
