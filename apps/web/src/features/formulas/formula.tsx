import {
  allergenSources,
  formulaAllergens,
  phrase,
  productAllergens,
  reworkWords,
  type AllergenAnswer,
  type Row,
} from '@bakehouse/records';
import { mass, whole } from '../../shared/format';
import { AllergenSentence } from '../../shared/allergen-sentence';
import { formulasInUse } from '../../shared/in-force';
import { NotOnTicketOf } from '../../shared/not-on-ticket';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Caution, Empty, Screen, Section } from '../../ui';
import { PlanPointsOf } from './plan-points-of';
import { FormulaLines } from './formula-lines';
import { FormulaVersions } from './formula-versions';
import { TotalFormula } from './total-formula';
import { WaterForDough } from './water-for-dough';

/** One approved version: grams, baker's percentages, steps, products, what it contains and which limits it is held to. */
export function Formula({ id }: { readonly id: string }) {
  const { snapshot, site } = useTabletState();
  const now = useNow(60_000);
  const f = snapshot.formulaVersion.find((v) => v.id === id);
  const back = { to: office.formulas, text: 'Formulas' };
  if (!f)
    return (
      <Screen title="Formula" back={back}>
        <Empty>This version is not on this device. Load the list of formulas again.</Empty>
      </Screen>
    );
  const sources = allergenSources({ specifications: snapshot.specification, formulas: formulasInUse(snapshot, now) }, now);
  const inIt = formulaAllergens(f.content, sources);
  const [only] = f.content.products.length === 1 ? f.content.products : [];
  return (
    <Screen title={`${f.name}, version ${f.number}`} back={back} actions={<Button onClick={() => window.print()}>Print</Button>}>
      <p>
        {phrase(`formula.${f.type}`)}, in force since {dayTime(f.since, site.zone)}.{' '}
        {f.content.lines.some((l) => l.flour) ? percentsAre(f.content) : ''}
      </p>
      <NotOnTicketOf products={f.content.products.map((p) => p.product)} />
      <FormulaLines content={f.content} />
      {hasFlourWithin(f.content) ? <TotalFormula version={f} /> : null}
      <p>
        <AllergenSentence by="formula" of={only ? (productAllergens(f.content, only.product, sources) ?? inIt) : inIt} />
        {f.content.products.length > 1 ? ' With what goes on or under it, see each product below.' : ''}
      </p>
      {f.content.steps.length === 0 ? null : (
        <Section title="Steps">
          <ol>
            {f.content.steps.map((s) => (
              <li key={s.key}>
                {s.name}
                {s.minutes === null ? '' : `, ${s.minutes} min`}
                {s.maxMinutes === null ? '' : ` (at most ${s.maxMinutes})`}
                {s.speed === null ? '' : `, ${phrase(`speed.${s.speed}`)}`}
              </li>
            ))}
          </ol>
        </Section>
      )}
      {f.content.products.length === 0 ? null : (
        <Section title="Products">
          <ul className="cards">
            {f.content.products.map((p) => (
              <Product key={p.product} p={p} of={productAllergens(f.content, p.product, sources)} />
            ))}
          </ul>
        </Section>
      )}
      <Section title="Rework">
        {reworkWords(f.content.rework).map((words) => (
          <p key={words}>{words}</p>
        ))}
      </Section>
      {f.content.lines.some((l) => l.flour) ? <WaterForDough version={f} /> : null}
      <Limits f={f} />
      <Caution />
      <FormulaVersions version={f} />
    </Screen>
  );
}

type Content = Row<'formulaVersion'>['content'];

/** What is made here may have flour in it: a leaven, old dough, a sponge. */
const hasFlourWithin = ({ lines }: Content): boolean => lines.some((l) => l.flour) && lines.some((l) => l.madeBy !== null);
const percentsAre = (content: Content): string =>
  hasFlourWithin(content)
    ? 'Percentages are of the flours on these lines; flour inside what is made here counts in the total formula below.'
    : 'Percentages are of all flours together.';

type ProductOf = Row<'formulaVersion'>['content']['products'][number];

function Product({ p, of }: { readonly p: ProductOf; readonly of: AllergenAnswer | undefined }) {
  return (
    <li className="card">
      <h3>{p.name}</h3>
      <p>
        {p.pieces === null ? '' : `${whole(p.pieces)} pieces of `}
        {mass(p.scalingMg)}, baked {mass(p.bakedMg)} (loss {(p.lossPpm / 10_000).toFixed(1)} %)
      </p>
      <ul>
        {p.ovens.map((o) => (
          <li key={o.oven}>
            {o.oven}: {o.celsius} °C{o.finishCelsius === null ? '' : ` to ${o.finishCelsius} °C`}, {o.minutes} min
            {o.steamSeconds > 0 ? `, steam ${o.steamSeconds} s` : ''}
          </li>
        ))}
      </ul>
      <p>
        {phrase(`dateType.${p.dateType}`)}: {p.lifeDays} {p.lifeDays === 1 ? 'day' : 'days'}
      </p>
      {p.additions.length === 0 ? null : (
        <p>Also on it: {p.additions.map((a) => `${a.name} (${phrase(`addition.${a.after}`)})`).join(', ')}</p>
      )}
      {of ? (
        <p>
          <AllergenSentence by="formula" of={of} />
        </p>
      ) : null}
    </li>
  );
}

function Limits({ f }: { readonly f: Row<'formulaVersion'> }) {
  return (
    <Section title="Limits by the plan in force">
      <PlanPointsOf formula={f.formula} products={f.content.products.map((p) => p.product)} basis />
    </Section>
  );
}
