import type { TraceView } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { moreThanWent, stillThereText } from '@bakehouse/views';
import type { ReactNode } from 'react';
import { whole } from '../format';
import { Empty, StateWord } from '../../ui';
import { dayTime, ofLot } from './words';

type Entry = TraceView['contacts'][number];

export const nobodyHasIt = 'By the records nobody outside the house has any of it.';

/** Whom to contact, in that order. On paper it has room to write beside each. */
export function ContactList({
  ring,
  zone,
  contactsShown,
  none,
  closedAt = null,
  actions,
}: {
  readonly contactsShown: boolean;
  /** What is said where nobody is on it. */
  readonly none: string;
  readonly ring: readonly Entry[];
  readonly zone: string;
  /** When the case was closed: calls go on after it, and say so. */
  readonly closedAt?: string | null;
  readonly actions?: (entry: Entry) => ReactNode;
}) {
  if (ring.length === 0) return <Empty>{none}</Empty>;
  return (
    <ol className="contacts">
      {ring.map((e) => (
        <Ring key={e.party} e={e} zone={zone} contactsShown={contactsShown} closedAt={closedAt}>
          {actions?.(e)}
        </Ring>
      ))}
    </ol>
  );
}

interface RingProps {
  readonly e: Entry;
  readonly zone: string;
  readonly contactsShown: boolean;
  readonly closedAt: string | null;
  readonly children: ReactNode;
}

function Ring({ e, zone, contactsShown, closedAt, children }: RingProps) {
  return (
    <li className={`contact-one ${e.reached ? 'reached' : ''}`}>
      <span className="contact-order" aria-hidden="true">
        {e.order}
      </span>
      <div className="contact-who">
        <p className="contact-name">
          <strong>{e.name ?? 'name not known'}</strong>
          {e.contactName === null ? '' : `, ${e.contactName}`}
        </p>
        <Marks e={e} />
        <ul className="contact-lines">
          {e.lines.map((l, i) => (
            <li key={`${l.lots.join()} ${i}`}>
              {ofLot(l)} {l.name}
              {l.code === null ? '' : `, lot ${l.code}`}
              {l.certain ? '' : ' (possibly)'}, {dayTime(l.at, zone)}
            </li>
          ))}
        </ul>
        {e.calls.length === 0 ? null : (
          <ul className="contact-calls">
            {e.calls.map((c) => (
              <li key={c.at}>
                {dayTime(c.at, zone)}: {phrase(`contactAnswer.${c.answer}` as PhraseKey)}
                {c.piecesHeld === null ? '' : ', '}
                <StillThere held={c.piecesHeld} of={e} />
                {closedAt !== null && c.at >= closedAt ? ', after the case was closed' : ''}
                {c.said === null ? null : <span className="contact-said">“{c.said}”</span>}
              </li>
            ))}
          </ul>
        )}
      </div>
      <div className="contact-do">
        <Phone phone={e.phone} shown={contactsShown} />
        <p className="contact-total">
          {whole(e.pieces)} {e.pieces === 1 ? 'piece' : 'pieces'}
          {e.piecesUnknown ? ' and more, not counted' : ''}
        </p>
        {children}
        <ul className="contact-ticks" aria-hidden="true">
          <li>informed</li>
          <li>no answer</li>
          <li>left a message</li>
          <li className="contact-write">at, by whom</li>
          <li className="contact-write">still there</li>
        </ul>
      </div>
    </li>
  );
}

/** What they said is left; as a warning where more is said than went there. */
function StillThere({ held, of: { pieces, piecesUnknown } }: { readonly held: number | null; readonly of: Entry }) {
  if (held === null) return null;
  const of = { piecesHeld: held, pieces, piecesUnknown };
  if (!moreThanWent(of)) return stillThereText(of);
  return (
    <StateWord shape="diamond" tone="ask">
      {stillThereText(of)}
    </StateWord>
  );
}

function Phone({ phone, shown }: { readonly phone: string | null; readonly shown: boolean }) {
  if (phone === null)
    return (
      <span className="faint">{shown ? 'no number on record' : 'number not shown: sign on with your PIN, in a role for every site'}</span>
    );
  if (!/\d/.test(phone)) return <span className="faint">{phone}</span>;
  return (
    <a className="button go contact-phone" href={`tel:${phone.replace(/\s/g, '')}`}>
      {phone}
    </a>
  );
}

function Marks({ e }: { readonly e: Entry }) {
  return (
    <p className="contact-marks">
      {e.reached ? (
        <StateWord shape="disc" tone="good">
          informed
        </StateWord>
      ) : null}
      {e.certain ? (
        <StateWord shape="full" tone="bad">
          certain
        </StateWord>
      ) : (
        <StateWord shape="part" tone="ask">
          possible
        </StateWord>
      )}
      {e.vulnerable ? (
        <StateWord shape="handset" tone="bad">
          easily hurt: contact first
        </StateWord>
      ) : null}
      {e.unattended ? (
        <StateWord shape="ring" tone="ask">
          left with nobody there
        </StateWord>
      ) : null}
    </p>
  );
}
