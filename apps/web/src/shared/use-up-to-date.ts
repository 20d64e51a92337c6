import { useEffect, useRef } from 'react';
import { useTabletState } from './tablet-context';

/** Asks again once anything was recorded here or elsewhere: what somebody reported a moment ago must not be missing. */
export function useUpToDate(reload: () => Promise<void>): void {
  const { sizes } = useTabletState();
  const on = sizes.map((s) => `${s.book} ${s.size}`).join();
  const shown = useRef(on);
  useEffect(() => {
    if (shown.current === on) return;
    shown.current = on;
    void reload();
  }, [on, reload]);
}
