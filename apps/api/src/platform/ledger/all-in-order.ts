/**
 * Waits for statements that were sent one after the other on one connection, and throws what stood against the first of them that failed: the server refuses
 * all later ones of the transaction for that alone, and several of these answers may arrive at once.
 */
export async function allInOrder(sent: readonly Promise<unknown>[]): Promise<void> {
  for (const one of await Promise.allSettled(sent)) if (one.status === 'rejected') throw one.reason;
}
