import type { RecallView } from '@bakehouse/contracts';
import { office } from '../../shared/office-paths';
import { For, LinkButton, Section } from '../../ui';

type Site = RecallView['sites'][number];

/** The authority of each site that the case reaches: its rules come first, and it is informed first. */
export function InformFirst({ sites, practice }: { readonly sites: readonly Site[]; readonly practice: boolean }) {
  if (sites.length === 0) return null;
  return (
    <Section title={`${practice ? 'Practice: inform' : 'Inform'} ${sites.length === 1 ? 'the authority first' : 'the authorities first'}`}>
      {practice ? <p>Agree on it with them beforehand, and say “this is a practice” first.</p> : null}
      <ul className="inform-first">
        {sites.map((s) => (
          <li key={s.site}>
            {sites.length === 1 ? null : `${s.siteName}: `}
            {s.authority === null ? (
              <>
                No food-safety authority is written down.{' '}
                <For needs="manage.site">
                  <LinkButton to={office.site}>Write it down</LinkButton>
                </For>
              </>
            ) : (
              <>
                <strong>{s.authority.name}</strong> <Telephone of={s.authority.phone} says="" />
                <Telephone of={s.authority.outOfHours} says="out of hours " />
                {s.authority.phone === null && s.authority.outOfHours === null ? 'no number on record' : null}
              </>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}

const Telephone = ({ of, says }: { readonly of: string | null; readonly says: string }) =>
  of === null ? null : (
    <span>
      {says}
      <a className="button contact-phone" href={`tel:${of.replace(/\s/g, '')}`}>
        {of}
      </a>{' '}
    </span>
  );
