import { useEffect, useState } from 'react';

/** Keeps the screen on while it is wanted, and gives it back afterwards. False where this device does not let a page do that. */
export function useScreenAwake(wanted: boolean): boolean {
  const [can, setCan] = useState('wakeLock' in navigator);
  useEffect(() => {
    if (!wanted || !('wakeLock' in navigator)) return undefined;
    let held: WakeLockSentinel | undefined;
    let over = false;
    const ask = async (): Promise<void> => {
      // The browser takes it away whenever the page is not seen; it is asked for again when it is.
      if (document.visibilityState !== 'visible' || (held && !held.released)) return;
      try {
        const got = await navigator.wakeLock.request('screen');
        if (over) await got.release();
        else held = got;
        setCan(true);
      } catch {
        setCan(false);
      }
    };
    const seen = (): void => void ask();
    void ask();
    document.addEventListener('visibilitychange', seen);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', seen);
      void held?.release();
    };
  }, [wanted]);
  return can;
}
