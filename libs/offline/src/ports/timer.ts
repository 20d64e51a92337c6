/** Something to be done later; the answer calls it off. */
export interface Timer {
  after(ms: number, run: () => void): () => void;
}

export const systemTimer: Timer = {
  after(ms, run) {
    const handle = setTimeout(run, ms);
    return () => {
      clearTimeout(handle);
    };
  },
};
