import { siteDetails, type SiteDetails } from '@bakehouse/contracts';
import type { NewEntry } from '@bakehouse/records';
import { useState } from 'react';
import { dayTime } from '../../shared/trace/words';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { useProvenAct } from '../../shared/use-proven-act';
import { Button, Caution, Field, Screen, Section, useMay } from '../../ui';

const fields = [
  ['address', 'Address, as it stands on papers', 300, 3],
  ['phone', 'Telephone of the site', 60, 1],
  ['registration', 'Number that it is registered under as a food business', 60, 1],
  ['authority', 'Local food-safety authority', 120, 1],
  ['authorityPhone', 'Telephone of the authority', 60, 1],
  ['authorityOutOfHours', 'Telephone out of hours', 60, 1],
] as const;
type Words = Readonly<Record<(typeof fields)[number][0], string>>;

const wordsOf = ({ address, phone, registration, authority }: SiteDetails): Words => ({
  address: address ?? '',
  phone: phone ?? '',
  registration: registration ?? '',
  authority: authority?.name ?? '',
  authorityPhone: authority?.phone ?? '',
  authorityOutOfHours: authority?.outOfHours ?? '',
});

const orNull = (text: string): string | null => (text.trim() === '' ? null : text.trim());

/** All of it is written down again each time: the newest holds, and what was there before stays on record. */
function entryOf(w: Words): NewEntry {
  const name = orNull(w.authority);
  const said = { address: orNull(w.address), phone: orNull(w.phone) };
  return {
    kind: 'site-described',
    payload: {
      registration: orNull(w.registration),
      authority: name === null ? null : { name, phone: orNull(w.authorityPhone), outOfHours: orNull(w.authorityOutOfHours) },
    },
    words: { ...(said.address && { address: said.address }), ...(said.phone && { phone: said.phone }) },
  };
}

/** Where the site is, and whom it informs first when food may hurt people. */
export function SitePage() {
  const { site } = useTabletState();
  const loaded = useLoaded('/sites/{site}/details', siteDetails, { params: { path: { site: site.id } } });
  return (
    <Screen title={site.name} back={{ to: office.home, text: 'Office' }}>
      <Shown of={loaded}>
        {(details) => <SiteForm key={details.since} details={details} zone={site.zone} onDone={() => void loaded.reload()} />}
      </Shown>
      <Section title="Its day">
        <p>
          Times are those of {site.zone}. A day begins at {site.dayStarts}. Both were set when the site was begun: records are kept by them.
        </p>
      </Section>
      <Caution />
    </Screen>
  );
}

interface FormProps {
  readonly details: SiteDetails;
  readonly zone: string;
  readonly onDone: () => void;
}

function SiteForm({ details, zone, onDone }: FormProps) {
  const [words, setWords] = useState(() => wordsOf(details));
  const { act, busy, trouble } = useProvenAct();
  const before = wordsOf(details);
  const may = useMay('manage.site');
  const changed = fields.some(([key]) => words[key].trim() !== before[key]);
  const numberWithoutName = words.authority.trim() === '' && `${words.authorityPhone}${words.authorityOutOfHours}`.trim() !== '';
  const save = async (): Promise<void> => {
    if (await act(entryOf(words))) onDone();
  };
  return (
    <>
      {trouble}
      <p className="faint">
        {details.since === null
          ? 'Nothing is written down yet. It stands on the papers for an officer and for a recall.'
          : `As it was written down ${dayTime(details.since, zone)}. It stands on the papers for an officer and for a recall.`}
      </p>
      {may ? (
        fields.map(([key, label, most, lines]) => (
          <Field
            key={key}
            label={label}
            value={words[key]}
            onChange={(text) => setWords({ ...words, [key]: text })}
            maxLength={most}
            {...(lines > 1 && { lines })}
          />
        ))
      ) : (
        <AsWritten words={before} />
      )}
      {numberWithoutName ? <p>Write down which authority that number is of.</p> : null}
      <div className="buttons">
        <Button needs="manage.site" look="go" disabled={busy || !changed || numberWithoutName} onClick={() => void save()}>
          Write it down
        </Button>
      </div>
    </>
  );
}

/** The same to read. */
const AsWritten = ({ words }: { readonly words: Words }) => (
  <dl className="facts">
    {fields.map(([key, label]) => (
      <div key={key}>
        <dt>{label}</dt>
        <dd>{words[key] === '' ? 'not written down' : words[key]}</dd>
      </div>
    ))}
  </dl>
);
