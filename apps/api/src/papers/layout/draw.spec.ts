import { afterAll, describe, expect, it } from '@jest/globals';
import { paragraph, Printer, type Content, type Paper } from './index.js';

const paper = (...body: readonly Content[]): Paper => ({
  title: 'A paper',
  head: { left: 'Test bakehouse', right: 'A paper' },
  foot: { seal: 'not sealed', printed: '25 Nov 2026 14:00', times: 'Europe/London' },
  caution: 'Ask a competent person',
  practice: null,
  size: 'a4',
  printedAt: new Date('2026-11-25T14:00:00Z'),
  body,
});

const printer = new Printer();
const pdfOf = (of: Paper): Promise<Buffer> => printer.pdfOf(of);
afterAll(() => printer.onApplicationShutdown());

describe('papers that are drawn', () => {
  it('are the same bytes for the same paper, whatever was drawn between', async () => {
    const first = await pdfOf(paper(paragraph('one')));
    const second = await pdfOf(paper(paragraph('two')));
    expect(first.subarray(0, 5).toString()).toBe('%PDF-');
    expect(second.equals(first)).toBe(false);
    expect((await pdfOf(paper(paragraph('one')))).equals(first)).toBe(true);
  });

  it('are drawn after one that could not be', async () => {
    await expect(pdfOf(paper({ table: { widths: ['auto', 'auto'], body: [['one cell of two']] } }))).rejects.toThrow();
    expect((await pdfOf(paper(paragraph('one')))).length).toBeGreaterThan(1000);
  });

  it('wait 32 at most: one more is told to come again, and none of those that wait is lost', async () => {
    const asked = Array.from({ length: 34 }, (_, i) => pdfOf(paper(paragraph(`paper ${i}`))));
    await expect(asked.pop()).rejects.toMatchObject({ problem: { problem: 'unavailable' }, headers: { 'retry-after': '15' } });
    expect(new Set((await Promise.all(asked)).map((pdf) => pdf.toString('latin1'))).size).toBe(33);
  });
});
