import { useEffect, useId, useRef, type ReactNode } from 'react';

/** Something that is asked before going on: in front of the screen, closed by its own button or Escape. */
export function Sheet({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog
      ref={dialog}
      className="sheet"
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <header>
        <h2 id={id}>{title}</h2>
        <button type="button" className="button quiet" onClick={onClose}>
          Close
        </button>
      </header>
      {children}
    </dialog>
  );
}
