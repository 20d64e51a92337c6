import { countText, dayText } from '@bakehouse/kernel';
import { wallTime } from '../../platform/clock/index.js';
import { box, field, fields, heading, inside, masthead, small, strong, type Content, type Node } from '../layout/index.js';
import { fewOf, mattersOf, nothingToSay, type Matter } from './attention.js';
import { timeOf, type Pack } from './pack.js';
import { sections, sectionTitles, type Section } from './sections.js';

export const periodText = ({ view: { from, until } }: Pack): string =>
  from === until ? dayText(from) : `${dayText(from)} to ${dayText(until)}`;

/** What an officer sees first: whose records, of when, under which plan, what needs attention, and where everything is. */
export function firstPage(pack: Pack): Content[] {
  const { view } = pack;
  const [seal] = view.seals;
  return [
    masthead({
      house: view.business,
      site: view.site.name,
      title: 'Records for inspection',
      line: `${periodText(pack)}. A day begins at ${view.site.dayStarts}.`,
      seal: {
        at: seal === undefined ? 'not yet' : wallTime(seal.at, view.site.zone),
        code: seal?.code ?? '',
        beside: seal === undefined ? '' : countText(seal.size, 'record'),
      },
    }),
    {
      table: {
        widths: [80, '*'],
        body: [
          ...whereRows(pack),
          ['Plan in force', view.plans.length === 0 ? strong('NONE') : { stack: view.plans.map((p) => planLine(pack, p)) }],
          ...overnight(pack),
        ],
      },
      layout: 'plain',
    },
    heading('What needs attention'),
    attention(mattersOf(view)),
    {
      columns: [
        { stack: [inside('The period in figures'), figures(pack)], width: '*' },
        { stack: [inside('In this pack'), contents()], width: '*' },
      ],
      columnGap: 20,
    },
    {
      unbreakable: true,
      stack: [
        inside('For the officer’s use'),
        box([
          fields(field('name', 160), field('authority', 170)),
          fields(field('seen on', 90), field('signed', 250)),
          fields(field('asked for besides', 350)),
        ]),
      ],
    },
    small('The seal code stands for all records until it was made; how to check it is on the last page.'),
  ];
}

/** Where the site is, what it is registered as, and its authority, as they are written down. */
function whereRows({ view: { details: d } }: Pack): (readonly [string, string])[] {
  const site = [d.address ?? 'address not on record', ...(d.phone === null ? [] : [d.phone])].join(', ');
  return [
    ['Site', `${site}; ${d.registration === null ? 'registration not on record' : `registered as ${d.registration}`}`],
    [
      'Authority',
      d.authority === null ? 'not on record' : [d.authority.name, ...(d.authority.phone === null ? [] : [d.authority.phone])].join(', '),
    ],
  ];
}

function planLine(pack: Pack, p: Pack['view']['plans'][number]): Node {
  const approved = `approved by ${p.signedBy ?? 'name withheld'}${p.signedAt === null ? '' : `, ${timeOf(pack, p.signedAt)}`}`;
  return { text: [{ text: `${p.name}, version ${p.number}`, bold: true }, `, ${approved}`], style: 'body' };
}

/** A period may end in the middle of a night. */
function overnight(pack: Pack): (readonly [string, string])[] {
  const { goesOnUntil, begunBefore } = pack.view.overnight;
  const rows: [string, string][] = [];
  if (goesOnUntil !== null) rows.push(['Overnight', `What was begun in this period is here whole, until ${timeOf(pack, goesOnUntil)}`]);
  const before = begunBefore.map(({ day, makes }) => `${makes.join(', ')} on ${dayText(day)}`).join('; ');
  if (before !== '') rows.push(['Cut', `Begun before this period, and whole on that day: ${before}`]);
  return rows;
}

/** The number of a page is set once the pages are counted; until then five digits hold its place. */
const pageOf = (section: Section): Node => ({ text: '', pageReference: section, style: 'value', alignment: 'right' });
const pageWidth = 36;

function attention(matters: readonly Matter[]): Node {
  if (matters.length === 0) return nothingToSay;
  return {
    table: {
      widths: [58, 112, '*', 9, pageWidth],
      body: matters.map((m) => [
        { text: m.count, style: 'figure' },
        { text: m.what, style: 'value', margin: [0, 2, 0, 0] },
        { text: fewOf(m.named), style: 'body', margin: [0, 2, 0, 0] },
        { text: 'p.', margin: [0, 2, 0, 0] },
        { ...pageOf(m.section), alignment: 'left', margin: [0, 2, 0, 0] },
      ]),
    },
    layout: 'tight',
  };
}

function figures({ view: { counts: n } }: Pack): Node {
  const without = n.readings - n.within - n.outside - n.doubtful;
  const rows: readonly (readonly [what: string, count: number, of: string])[] = [
    [
      'Readings',
      n.readings,
      `${n.within} within, ${n.outside} outside, ${n.doubtful} undecided or not plausible, ${without} without a limit`,
    ],
    ['Mixes', n.makes, ''],
    ['Loads', n.loads, ''],
    [
      'Batches',
      n.batches,
      `${n.releasedByRule} released by rule, ${n.releasedByException} by signed exception, ${n.notReleased} not released`,
    ],
    ['Lots received', n.lotsReceived, `${n.lotsRefused} refused`],
    ['Deviations', n.deviations, `${n.stillOpen} open; ${n.openFromBefore} open from before`],
    ['Thermometers', n.probeChecks, `${n.probeChecksFailed} failed`],
    ['Clean-downs', n.cleanDowns, ''],
    ['Corrections', n.corrections, 'all versions are here'],
  ];
  return {
    table: {
      widths: [68, 28, '*'],
      body: rows.map(([what, count, of]) => [
        { text: what, style: 'value' },
        { text: String(count), style: 'value', alignment: 'right' },
        { text: of, style: 'cell' },
      ]),
    },
    layout: 'tight',
  };
}

const contents = (): Node => ({
  table: {
    widths: ['*', pageWidth],
    body: sections.map((section) => [{ text: sectionTitles[section], style: 'edge' }, pageOf(section)]),
  },
  layout: 'lines',
});
