import { useId, useLayoutEffect, useRef, type ReactNode } from 'react';

/** Something that is asked before going on: in front of the screen, closed by its own button or Escape. */
export function Sheet({
  title,
  onClose,
  mustAnswer = false,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  /** It has no button of its own to close it. */
  readonly mustAnswer?: boolean;
  readonly children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  // Before the effects of what is inside: a pad in it takes the focus once it is open, and what had it before has it again afterwards.
  useLayoutEffect(() => {
    const before = document.activeElement;
    const opened = dialog.current;
    opened?.showModal();
    return () => {
      opened?.close();
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      className="sheet"
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        if (!mustAnswer) onClose();
      }}
    >
      <header>
        <h2 id={id}>{title}</h2>
        {mustAnswer ? null : (
          <button type="button" className="button quiet" onClick={onClose}>
            Close
          </button>
        )}
      </header>
      {children}
    </dialog>
  );
}
