import type { Deliveries } from '@bakehouse/contracts';
import { dayText, quantityText } from '@bakehouse/kernel';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { Concerns } from '../../shared/concerns';
import { DeliveryPhoto } from '../../shared/delivery-photo';
import { paths } from '../../shared/night/paths';
import { office } from '../../shared/office-paths';
import { readingDoubt } from '../../shared/reading-doubt';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime, ofLot } from '../../shared/trace/words';
import { Button, LinkButton, StateWord, VerdictMark } from '../../ui';
import { judgedValue } from '../../ui/verdict-text';
import { DecideKeys } from './decide-keys';

export type Delivery = Deliveries[number];
type Line = Delivery['lines'][number];

/** A temperature that is not surely within its limit: outside, undecided, or by a thermometer that cannot be trusted. */
const outside = ({ temperature: t }: Line): boolean =>
  t !== null && (t.doubt !== null || (t.verdict !== 'within' && t.verdict !== 'no-limit'));
/** Whether a line waits for a decision on what was measured, or for its code. */
export const needsSomebody = (l: Line): boolean => (l.decision === null && outside(l)) || (l.codeState === 'not-known-yet' && !l.named);

/** From whom it came, and when. */
export const deliveryTitle = (d: Delivery, zone: string): string =>
  `${d.supplierName ?? 'supplier not known'}, ${dayTime(d.receivedAt, zone)}`;

/** A delivery with its photo, and each line as it stands now. */
export function One({ d, onDone, headed = true }: { readonly d: Delivery; readonly onDone: () => void; readonly headed?: boolean }) {
  const { site } = useTabletState();
  return (
    <article className="delivery">
      {headed ? <h3>{deliveryTitle(d, site.zone)}</h3> : null}
      <p className="faint">
        {d.note === null ? 'no paper' : `note ${d.note}`}
        {d.unattended ? ' · found, nobody was there' : ''} · recorded by {d.by ?? 'somebody whose name is withheld'}
      </p>
      {d.photo === null ? null : <Photo photo={d.photo} site={site.id} />}
      <Mend delivery={d.id} />
      <ul className="rows">
        {d.lines.map((l) => (
          <LineRow key={l.lot} l={l} onDone={onDone} />
        ))}
      </ul>
    </article>
  );
}

/** At the table, where it was recorded: corrected there, and a photo added that came later. */
function Mend({ delivery }: { readonly delivery: string }) {
  const [at] = useLocation();
  const { recent } = useTabletState();
  const newest = at.startsWith(paths.goods)
    ? recent.find((e) => (e.entry['corrects'] ?? e.id) === delivery && e.fate.as !== 'refused')
    : undefined;
  if (newest?.entry['kind'] !== 'delivery-received') return null;
  return (
    <div className="buttons">
      <LinkButton to={paths.correct(newest.id)}>Correct it, or add a photo</LinkButton>
    </div>
  );
}

/** Loaded when somebody asks for it: a list of deliveries fetches no pictures. */
function Photo({ photo, site }: { readonly photo: string; readonly site: string }) {
  const [open, setOpen] = useState(false);
  if (open) return <DeliveryPhoto photo={photo} site={site} />;
  return (
    <div className="buttons">
      <Button onClick={() => setOpen(true)}>Show the photo</Button>
    </div>
  );
}

/** With the year: what keeps for long is of another one. */
function LineRow({ l, onDone }: { readonly l: Line; readonly onDone: () => void }) {
  const dates = [
    ...(l.useBy === null ? [] : [`use by ${dayText(l.useBy)}`]),
    ...(l.bestBefore === null ? [] : [`best before ${dayText(l.bestBefore)}`]),
  ];
  return (
    <li className="row">
      <span className="row-main">
        <Link href={office.lot(l.lot)}>
          <strong>{l.name}</strong>
        </Link>{' '}
        {l.asWritten ?? ofLot(l)}
        <br />
        <span className="faint">
          {l.code === null
            ? l.codeState === 'none-on-it'
              ? 'no lot code on it'
              : 'no code yet'
            : `lot ${l.code}${l.named ? ', identified later' : ''}`}
          {dates.length === 0 ? '' : ` · ${dates.join(', ')}`}
          {l.used ? ' · used already' : ''}
        </span>
      </span>
      {l.temperature === null ? null : <Temperature of={l.temperature} />}
      <Concerns concerns={l.concerns} lot={l.lot} />
      <Decision l={l} />
      <DecideKeys
        lot={l.lot}
        name={l.name}
        decided={l.decision !== null}
        refused={l.concerns.some((c) => c.type === 'refused' && c.from === l.lot)}
        notIdentified={l.codeState === 'not-known-yet' && !l.named}
        onDone={onDone}
      />
    </li>
  );
}

function Temperature({ of: t }: { readonly of: NonNullable<Line['temperature']> }) {
  const {
    site: { zone },
  } = useTabletState();
  return (
    <span>
      {t.figure === null ? '–' : quantityText(t.figure, t.unit)} {phrase(`measured.${t.measured}` as PhraseKey)}{' '}
      <VerdictMark verdict={t.verdict} of={t.class} value={judgedValue(t.figure, t.unit, t.limit)} doubt={readingDoubt(t.doubt, zone)} />
      {t.corrected ? <span className="faint"> corrected</span> : null}
    </span>
  );
}

function Decision({ l: { decision } }: { readonly l: Line }) {
  if (!decision)
    return (
      <StateWord shape="ring" tone="calm">
        not decided
      </StateWord>
    );
  const text = phrase(`decision.${decision.decision}`);
  switch (decision.decision) {
    case 'accepted':
      return (
        <StateWord shape="disc" tone="good">
          {text}
        </StateWord>
      );
    case 'refused':
      return (
        <StateWord shape="diamond" tone="bad">
          {text}
        </StateWord>
      );
    case 'accepted-with-condition':
      return <StateWord shape="diamond" tone="ask">{`${text} ${decision.condition ?? ''}`}</StateWord>;
  }
}
