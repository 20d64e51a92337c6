/** Listens to a site's server-sent events as somebody; `next` waits for the next message and gives its id, or undefined once the service ended the stream. */
export async function listening(url: string, token: string, last?: string) {
  const response = await fetch(url, {
    headers: { authorization: `Bearer ${token}`, ...(last === undefined ? {} : { 'last-event-id': last }) },
  });
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  return {
    response,
    stop: () => reader?.cancel(),
    async next(): Promise<string | undefined> {
      for (;;) {
        const found = /^id: (\d+)\ndata: \1\n\n/m.exec(text);
        if (found) {
          text = text.slice(found.index + found[0].length);
          return found[1];
        }
        const read = await reader?.read();
        if (!read || read.done) return undefined;
        text += read.value;
      }
    },
  };
}
