import { Button } from './button';
import { NumberPad, type PadProps } from './number-pad';
import { Sheet } from './sheet';

/** One figure, asked for in front of the screen: what is typed stands at once, and Enter or “Done” closes it. */
export function FigureSheet({
  title,
  onClose,
  ...pad
}: Omit<PadProps, 'onEnter'> & { readonly title: string; readonly onClose: () => void }) {
  return (
    <Sheet title={title} onClose={onClose}>
      <NumberPad {...pad} onEnter={onClose} />
      <div className="buttons">
        <Button look="go" onClick={onClose}>
          Done
        </Button>
      </div>
    </Sheet>
  );
}
