import { foundLots } from '@bakehouse/contracts';
import { lotCodeKey, phrase, type PhraseKey } from '@bakehouse/records';
import { Link, Redirect } from 'wouter';
import type * as z from 'zod';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime, ofLot } from '../../shared/trace/words';
import { Empty, Screen } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { FindBox } from './find-box';

type Found = z.infer<typeof foundLots>;

/** Lots that were found. Where only one carries exactly that code there is nothing to choose: its page opens at once. */
export function FoundLots({ words }: { readonly words: string }) {
  const loaded = useLoaded('/lots', foundLots, { params: { query: { words } } });
  return (
    <Shown of={loaded}>
      {(lots) => {
        const only = theOne(lots, words);
        return only ? <Redirect to={office.lot(only.id)} replace /> : <List lots={lots} words={words} />;
      }}
    </Shown>
  );
}

function theOne(lots: Found, words: string): Found[number] | undefined {
  const exact = lots.filter((l) => l.code !== null && lotCodeKey(l.code) === lotCodeKey(words));
  return exact.length === 1 ? exact[0] : lots.length === 1 ? lots[0] : undefined;
}

function List({ lots, words }: { readonly lots: Found; readonly words: string }) {
  const {
    site: { zone },
  } = useTabletState();
  return (
    <Screen title={`Lots like “${words}”`} back={{ to: office.home, text: 'Office' }}>
      <FindBox start={words} />
      {lots.length === 0 ? (
        <Empty>
          No lot at the sites that you may look at has that code or name. Try a part of the code, or the name of the material; the supplier
          may read it differently than it was typed here.
        </Empty>
      ) : (
        <ul className="rows">
          {lots.map((l) => (
            <li key={l.id}>
              <Link href={office.lot(l.id)} className="row">
                <span className="row-main">
                  <strong>{l.code ?? 'no code'}</strong> {l.name}
                  <br />
                  <span className="faint">
                    {phrase(`lot.${l.type}` as PhraseKey)}
                    {l.supplierName === null ? '' : ` from ${l.supplierName}`}, {l.site}
                  </span>
                </span>
                <span>{ofLot(l)}</span>
                <span className="row-side">{dayTime(l.at, zone)}</span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </Screen>
  );
}
