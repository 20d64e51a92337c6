import { contentsView, deliveries, type TraceView } from '@bakehouse/contracts';
import { allergen, daysAfter, siteDay, type Allergen } from '@bakehouse/kernel';
import { official, type AllergenAnswer, type Row } from '@bakehouse/records';
import { containsByFormula } from '@bakehouse/views';
import { allergensText, type Product } from '../../shared/contents-words';
import { dayText, whole } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime, ofLot } from '../../shared/trace/words';
import { useLoaded } from '../../shared/use-loaded';
import { deliveredIn, type Delivered } from './picture/delivered';

interface Fact {
  readonly of: string;
  readonly says: string;
  readonly more: string | null;
}
type Lot = TraceView['lots'][number];

/** What is known of the lot that was asked for, in one row. What this device and the service do not say here stands as not known. */
export function LotFacts({ trace, lot, zone }: { readonly trace: TraceView; readonly lot: Lot; readonly zone: string }) {
  const { site } = useTabletState();
  const day = siteDay(lot.at, site);
  const here = lot.type === 'received' && lot.site === site.name;
  const loaded = useLoaded(here ? '/sites/{site}/deliveries' : null, deliveries, {
    params: { path: { site: site.id }, query: { from: daysAfter(day, -1), until: day } },
  });
  const came = loaded.reply?.as === 'ok' ? deliveredIn(loaded.reply.value).get(lot.id) : undefined;
  const contains = useContains(lot);
  const facts = [
    ...(lot.type === 'received'
      ? cameWith(came, lot, zone)
      : [{ of: lot.type === 'placeholder' ? 'Received, or found' : 'Made here', says: dayTime(lot.at, zone), more: lot.site }]),
    {
      of: lot.type === 'received' ? 'Received' : trace.dividedInto === null ? 'How much' : 'How much, before it was divided',
      says: ofLot(lot.mg === null ? lot : { pieces: lot.pieces, mg: lot.mg }),
      more: null,
    },
    ...contains,
    contactFact(trace),
  ];
  return (
    <dl className="facts">
      {facts.map((f) => (
        <div key={f.of}>
          <dt>{f.of}</dt>
          <dd>
            <strong>{f.says}</strong>
            {f.more === null ? null : <span>{f.more}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}

const cameWith = (came: Delivered | undefined, lot: Lot, zone: string): Fact[] => [
  { of: 'Supplier', says: came?.supplier ?? 'not known here', more: came?.unattended === true ? 'left with nobody there' : null },
  {
    of: 'Delivery note',
    says: came?.note ?? 'not known here',
    more: `${dayTime(came?.receivedAt ?? lot.at, zone)}${came?.photo === true ? ', with a photo' : ''}`,
  },
  { of: 'Dates', says: came?.date ?? 'no date on record', more: null },
];

/**
 * What it contains: by what was used, and until that has come, that it is being worked out; where that says nothing, beside it what its formula says.
 * What was bought, by its specification.
 */
function useContains(lot: Lot): Fact[] {
  const { snapshot, site } = useTabletState();
  const loaded = useLoaded(lot.type === 'batch' ? '/sites/{site}/contents' : null, contentsView, {
    params: { path: { site: site.id }, query: { lots: lot.id } },
  });
  if (lot.type === 'batch' && loaded.reply === undefined) return [{ of: byUseHead, says: 'being worked out', more: null }];
  const [used] = loaded.reply?.as === 'ok' ? loaded.reply.value : [];
  if (used && Object.values(used.answers).some((a) => a !== 'unknown')) return [byUse(used)];
  const row = snapshot.lot.find((l) => l.id === lot.id);
  const made = row && containsByFormula({ snapshot, at: lot.at }, row);
  if (made) return [...(lot.type === 'batch' ? [notKnownByUse(loaded.reply?.as === 'ok')] : []), byFormula(made)];
  const spec = snapshot.specification.find((s) => s.id === row?.specification);
  return spec === undefined ? [] : specified(spec);
}

const byUseHead = 'Allergens, by what was used';
const notKnownByUse = (answered: boolean): Fact => ({
  of: byUseHead,
  says: 'not known',
  more: answered
    ? 'what its formula says is not what was used'
    : 'the service has not answered; what its formula says is not what was used',
});

function byUse({ answers, checkedSince }: Product): Fact {
  const those = (answer: Product['answers'][Allergen]) => allergen.options.filter((a) => answers[a] === answer);
  const checked = checkedSince !== null && those('unknown').length === 0;
  const rest = checked ? `nothing else, each checked ${dayText(checkedSince)} or after` : 'anything else is not known';
  return { of: byUseHead, ...allergensText({ contains: those('contains'), may: those('may-contain') }, checked, rest) };
}

function byFormula({ contains, mayContain: may, notKnown, checkedSince }: AllergenAnswer): Fact {
  const unchecked = notKnown.length > 0 ? `not checked: ${notKnown.join(', ')}` : '';
  const rest = checkedSince === null ? unchecked : `checked ${dayText(checkedSince)} or after`;
  return { of: 'Allergens, by formula', ...allergensText({ contains, may }, checkedSince !== null, rest) };
}

function specified(spec: Row<'specification'>): Fact[] {
  const names = (all: typeof spec.contains): string => all.map((a) => official(`allergen.${a}`)).join(', ');
  const checked = spec.checked === null ? 'checked by nobody' : `checked ${dayText(spec.checked.on)}`;
  const none = spec.checked === null ? 'not known' : 'none of the list';
  return [
    { of: 'Specification', says: spec.name, more: checked },
    {
      of: 'Allergens',
      says: spec.contains.length > 0 ? `Contains ${names(spec.contains)}` : none,
      more: spec.mayContain.length > 0 ? `may contain ${names(spec.mayContain)}` : null,
    },
  ];
}

function contactFact({ contacts, hidden, direction }: TraceView): Fact {
  if (direction === 'backward') return { of: 'Contact', says: 'see trace forward', more: null };
  const told = contacts.filter((c) => c.reached).length;
  const part = hidden.length > 0 ? 'to contact that you may see, of more' : 'to contact';
  return { of: 'Contact', says: `${whole(contacts.length)} ${part}`, more: contacts.length === 0 ? null : `${whole(told)} told` };
}
