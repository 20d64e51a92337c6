import { quantityText } from '@bakehouse/kernel';
import { limitText } from '@bakehouse/records';
import { Button, Mark, markOf, Refusal } from '../../ui';
import { verdictText } from '../../ui/verdict-text';
import { fromLimit, type FromLimit } from './from-limit';
import { LimitScale } from './limit-scale';
import { pointLeftOut } from './point-left-out';
import type { BeingRead, ReadingOf } from './use-reading';

const nothingYet = <p className="nothing-yet">Nothing is recorded yet.</p>;

type Previewed = Pick<BeingRead, 'preview' | 'given' | 'unit' | 'doubt' | 'measured'> & { readonly setFigure: (figure: string) => void };

/** What the figure would be judged as, were it recorded now, and how far from its limit it is. */
export function VerdictPreview({ of, reading }: { readonly of: ReadingOf; readonly reading: Previewed }) {
  const { preview, given, unit, doubt, measured, setFigure } = reading;
  if (preview === undefined || given === undefined) return nothingYet;
  if (!preview.ok) return <Refusal refused={preview} />;
  const { verdict, milli, asked } = preview.outcome;
  const { shape, tone } = markOf(doubt === null ? verdict : 'unsure', of.point.content.class);
  const cannotBe = verdict === 'not-believable';
  const from = asked === null || cannotBe ? undefined : fromLimit({ figure: given, unit }, asked.limit);
  const meant = cannotBe ? pointLeftOut(given, unit, measured) : undefined;
  return (
    <>
      <section className={`preview ${tone}`} role="status">
        <p className="preview-word">
          <Mark shape={shape} tone={tone} />
          <span>{doubt ?? verdictText(verdict, { milli, limit: asked?.limit ?? null })}</span>
        </p>
        {from && asked ? (
          <>
            <p className="preview-far">{sentence(from)}</p>
            <LimitScale of={from} value={given} allowed={limitText(asked.limit)} />
          </>
        ) : null}
      </section>
      {meant === undefined ? null : (
        <>
          <h2>Did you mean {quantityText(meant, unit)}?</h2>
          <div className="buttons stacked">
            <Button look="go" onClick={() => setFigure(meant)}>
              Yes, {quantityText(meant, unit)}
            </Button>
            <Button onClick={() => setFigure('')}>No, clear it</Button>
          </div>
        </>
      )}
      {nothingYet}
    </>
  );
}

const sentence = ({ text }: FromLimit): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
