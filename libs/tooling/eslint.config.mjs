import path from 'node:path';
import js from '@eslint/js';
import tseslint from 'typescript-eslint';

const root = path.resolve(import.meta.dirname, '../..');

/** Time, chance and the environment come from clock, ids and config: everything else receives them. */
const impure = [
  { selector: "CallExpression[callee.object.name='Date'][callee.property.name='now']", message: 'Ask the clock.' },
  { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: 'Ask the clock.' },
  { selector: "CallExpression[callee.object.name='Math'][callee.property.name='random']", message: 'Chance comes from ids.' },
  { selector: "MemberExpression[object.name='process'][property.name='env']", message: 'Settings come from config.' },
];
const whole = [
  {
    selector: "ImportDeclaration[source.value='zod']:not(:has(ImportNamespaceSpecifier))",
    message: "import * as z from 'zod': a named import costs 67 kB more in a bundle.",
  },
  { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
];

export default tseslint.config(
  {
    ignores: ['**/dist/**', '**/node_modules/**', '**/generated/**', '.data/**', '.cache/**', 'out/**', 'apps/web/public/**', '**/*.d.ts'],
  },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    files: ['**/*.ts', '**/*.tsx'],
    rules: {
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-extraneous-class': 'off', // Nest's modules are classes without members
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', destructuredArrayIgnorePattern: '^_' },
      ],
      '@typescript-eslint/no-unsafe-function-type': 'off', // Nest hands handlers as Function
      'no-irregular-whitespace': 'off',
      '@typescript-eslint/triple-slash-reference': 'off', // a package without types has ours beside it
      'no-control-regex': 'off',
      'max-lines': ['error', 300],
      'max-lines-per-function': ['error', { max: 70, skipComments: true, skipBlankLines: true }],
      'no-restricted-syntax': ['error', ...impure, ...whole],
      eqeqeq: 'error',
    },
  },
  {
    files: ['libs/*/src/**/*.ts', 'apps/api/src/**/*.ts'],
    ignores: ['**/*.spec.ts'],
    languageOptions: { parserOptions: { project: ['libs/*/tsconfig.json', 'apps/api/tsconfig.json'], tsconfigRootDir: root } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      '@typescript-eslint/no-unnecessary-condition': 'off',
    },
  },
  // The three places where they come from.
  {
    files: [
      'apps/api/src/platform/{clock,config,ids}/**',
      'libs/offline/src/ports/**',
      'libs/tooling/**',
      'test/**',
      '**/*.spec.ts',
      'apps/web/vite.config.ts',
    ],
    rules: { 'no-restricted-syntax': ['error', ...whole.slice(0, 1)] },
  },
  { files: ['**/*.spec.ts', 'test/**'], rules: { 'max-lines-per-function': 'off', '@typescript-eslint/no-non-null-assertion': 'error' } },
  { files: ['apps/web/vite.config.ts', 'libs/tooling/**'], rules: { 'no-restricted-syntax': 'off' } },
  {
    files: ['apps/web/build/*.js'],
    languageOptions: {
      globals: { self: 'readonly', caches: 'readonly', Request: 'readonly', URL: 'readonly', fetch: 'readonly', __FILES__: 'readonly' },
    },
  },
  {
    files: ['**/*.mjs'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        URL: 'readonly',
        fetch: 'readonly',
        setTimeout: 'readonly',
        clearTimeout: 'readonly',
        globalThis: 'readonly',
        AbortSignal: 'readonly',
        Buffer: 'readonly',
        performance: 'readonly',
        WebAssembly: 'readonly',
        setInterval: 'readonly',
        clearInterval: 'readonly',
      },
    },
  },
);
