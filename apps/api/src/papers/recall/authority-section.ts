import { countText } from '@bakehouse/kernel';
import { amountOf, facts, inside, paragraph, type Content } from '../layout/index.js';
import type { CasePaper } from './case-paper.js';
import { groupsOf, suspectNames } from './notice.js';

const left = new Set(['dispatch', 'round', 'donation', 'feed', 'counter', 'stall', 'eaten-in', 'staff']);

/** Room above the rule of the row. */
const toWrite: Content = { text: ' ', margin: [0, 6, 0, 0] };

/** Each site that the case reaches: its address, what it is registered as, its number. */
const businessOf = ({ business, recall: { sites } }: CasePaper): string =>
  sites
    .map(({ siteName, address, registration, phone }) =>
      [
        `${business}, ${siteName}`,
        address ?? 'address not on record',
        registration === null ? 'registration not on record' : `registered as ${registration}`,
        ...(phone === null ? [] : [phone]),
      ].join(', '),
    )
    .join('; ') || business;

/** What the authority needs, in the order of 21 CFR 7.46(a) (from memory), with lines for what the records do not hold. */
export function authoritySection(paper: CasePaper): Content[] {
  const { recall, departures } = paper;
  const { trace } = recall;
  const batches = trace.lots.filter((l) => l.type === 'batch');
  const produced = (certain: boolean): number => batches.filter((l) => l.certain === certain).reduce((n, l) => n + (l.pieces ?? 0), 0);
  const distributed = (certain: boolean): number =>
    departures.filter((d) => left.has(d.channel) && !d.toShop && d.certain === certain).reduce((n, d) => n + (d.pieces ?? 0), 0);
  const both = (sum: (certain: boolean) => number): string =>
    `${amountOf(sum(true), null)} certain, ${amountOf(sum(false), null)} possible`;
  const unknown = departures.some((d) => left.has(d.channel) && !d.toShop && d.pieces === null && d.mg === null)
    ? '; some amounts not known'
    : '';
  return [
    {
      unbreakable: true,
      stack: [
        inside('For the authority'),
        paragraph('From the records. Write in what they do not hold.'),
        facts(
          [
            [
              'Product',
              groupsOf(paper)
                .filter((g) => g.lots.some((l) => l.type === 'batch'))
                .map((g) => `${g.name}${g.certain ? '' : ' (possible)'}`)
                .join('; ') || suspectNames(paper),
            ],
            ['How it was found', recall.said ?? 'not written down'],
            ['Reason', `${recall.hazardName} in ${suspectNames(paper)}`],
            ['Produced', both(produced)],
            ['In distribution', `${both(distributed)}${unknown}`],
            [
              'Accounts',
              `${countText(trace.contacts.length, 'contact')} on the contact list${trace.counter.length > 0 ? '; also people whom nobody can name' : ''}`,
            ],
            ['Informed so far', `${trace.contacts.filter((r) => r.reached).length} of ${trace.contacts.length}`],
            ['Evaluation of the risk', toWrite],
            ['Recall strategy and depth', toWrite],
            ['Business', businessOf(paper)],
            ['Contact person, telephone', toWrite],
          ],
          120,
        ),
      ],
    },
  ];
}
