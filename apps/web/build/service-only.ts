import type { Plugin } from 'vite';

/**
 * Leaves out of the pages what only the service judges: a plan is not approved off line, and what is wrong with a draft of one the service has said
 * before it is signed. There each of these functions finds nothing; what a device says of its own entry holds only until the service has answered.
 */
export function serviceOnly(modules: Readonly<Record<string, readonly string[]>>): Plugin {
  return {
    name: 'service-only',
    apply: 'build',
    enforce: 'pre',
    load(id) {
      const found = Object.entries(modules).find(([module]) => id.endsWith(module));
      return found ? found[1].map((name) => `export const ${name} = () => [];\n`).join('') : null;
    },
  };
}
