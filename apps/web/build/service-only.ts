import type { Plugin } from 'vite';

/**
 * Leaves out of the pages what only the service decides: a plan is not approved off line, so no tablet ever judges one. What a page must not reach
 * throws there, and says so.
 */
export function serviceOnly(modules: Readonly<Record<string, readonly string[]>>): Plugin {
  return {
    name: 'service-only',
    apply: 'build',
    enforce: 'pre',
    load(id) {
      const module = Object.keys(modules).find((one) => id.endsWith(one));
      if (module === undefined) return null;
      const body = modules[module]?.map((name) => `export const ${name} = only;`).join('\n') ?? '';
      return `const only = () => { throw new Error('decided by the service alone'); };\n${body}\n`;
    },
  };
}
