import { Button } from '../../ui';

interface Props {
  /** Where what is shown begins; undefined is the newest. */
  readonly before: string | undefined;
  /** Where what came before it begins; null where there is nothing. */
  readonly next: string | null;
  readonly onBefore: (before: string | undefined) => void;
}

/** The keys below a page of a log that is read from the newest back. */
export const OlderKeys = ({ before, next, onBefore }: Props) => (
  <div className="buttons">
    {before === undefined ? null : (
      <Button look="quiet" onClick={() => onBefore(undefined)}>
        The newest
      </Button>
    )}
    {next === null ? null : (
      <Button look="quiet" onClick={() => onBefore(next)}>
        What came before
      </Button>
    )}
  </div>
);
