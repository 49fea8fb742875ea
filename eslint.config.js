import js from '@eslint/js';
import tseslint from 'typescript-eslint';
import { noWords } from './scripts/noWords.mjs';

export default tseslint.config(
  {
    ignores: [
      'dist/',
      'out/',
      'coverage/',
      'node_modules/',
      'fixtures/',
      '*.config.*',
      '*.cjs',
      'scripts/**/*.mjs',
      'tests/**/*.mjs',
    ],
  },
  js.configs.recommended,
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: { parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unnecessary-condition': 'off',
      '@typescript-eslint/no-non-null-assertion': 'error',
      // A name taken out of an object so that the rest is without it is used by being left out.
      '@typescript-eslint/no-unused-vars': ['error', { ignoreRestSiblings: true }],
      'no-restricted-imports': [
        'error',
        {
          paths: [
            {
              name: 'undici',
              importNames: ['fetch', 'request', 'stream', 'install', 'pipeline'],
              message:
                'Call globalThis.fetch through services/client: recorded replies cannot see undici’s own fetch.',
            },
          ],
        },
      ],
    },
  },
  {
    // Two databases stand behind the record: what is asked of them is written where both are known.
    files: ['src/**'],
    ignores: ['src/record/**'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: "MemberExpression[property.name='db'], Property[key.name='db']",
          message: 'Ask the record through a function of src/record: SQL stands there and nowhere else.',
        },
        {
          selector: "ImportDeclaration[source.value='kysely']",
          message: 'Only src/record speaks SQL: write the query there.',
        },
      ],
    },
  },
  {
    // A sentence for a reader stands in the catalogue. Excepted: scripts, which are handed what they say
    // (tests/web/madeUpLanguage.test.ts), help of metrics for the scraper, and what the writer of a conditions file
    // is told of it.
    files: ['src/{water,signals,advice,briefing,verification,outings,web}/**'],
    ignores: [
      'src/web/{style,outingScript,metrics}.ts',
      'src/advice/whatIf/{contradictions,quantity,schema,template}.ts',
    ],
    plugins: { house: { rules: { 'no-words': noWords } } },
    rules: { 'house/no-words': 'error' },
  },
  {
    files: ['tests/**', 'bench/**', 'scripts/**'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
);
