/** While the service says when there is news, it is asked without news only this often; else with every tick. */
const quietTicks = 10;
/** So long is waited after news for more of it: a busy table records every few seconds, and each tablet asks once for all of that. */
const gatherMs = 4_000;

export interface News {
  /** Whether to ask without news. */
  tick(): boolean;
  stop(): void;
}

/**
 * Hears of news at a site as it comes. `tick` is called every half minute: it says whether to ask without news, since nothing may be heard for want of a
 * network, of a sign-on in this browser, or of a place among the listeners.
 */
export function listenForNews(site: string, onNews: () => void): News {
  let source: EventSource | undefined;
  let quiet = 0;
  let gathering: ReturnType<typeof setTimeout> | undefined;
  const tell = (): void => {
    gathering = undefined;
    onNews();
  };
  const open = (): void => {
    source = new EventSource(`/api/v1/sites/${site}/events`);
    source.onmessage = () => {
      quiet = 0;
      gathering ??= setTimeout(tell, gatherMs);
    };
  };
  open();
  return {
    tick: () => {
      const heard = source?.readyState === EventSource.OPEN;
      if (source?.readyState === EventSource.CLOSED) open(); // refused; a break on the way the browser mends itself
      quiet = heard ? (quiet + 1) % quietTicks : 0;
      return quiet === 0;
    },
    stop: () => {
      clearTimeout(gathering);
      source?.close();
    },
  };
}
