import type { Setup } from '@bakehouse/contracts';

/** One piece a step, filled where it is done. The words beside it say the same. */
export const Bar = ({ steps }: Pick<Setup, 'steps'>) => (
  <div className="setup-bar" aria-hidden="true">
    {steps.map((s) => (
      <span key={s.step} className={s.done ? 'done' : ''} />
    ))}
  </div>
);
