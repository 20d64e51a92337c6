import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { html, Html } from './html.js';

describe('HTML from a template', () => {
  it('takes text as text, and pieces as they are', () => {
    expect(html`<b>${'<i>&"\''}</b>${html`<i>${1}</i>`}${[html`a`, html`b`]}`.text).toBe('<b>&lt;i&gt;&amp;&quot;&#39;</b><i>1</i>ab');
  });

  it('lets no text open a tag or leave an attribute', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const { text: written } = html`${text}`;
        expect(written).not.toMatch(/[<>"']/);
      }),
    );
  });

  it('is no string: what is joined by hand does not pass as HTML', () => {
    expect(html`<p></p>`).toBeInstanceOf(Html);
  });
});
