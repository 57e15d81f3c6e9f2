import tseslint from 'typescript-eslint';
import officeAddins from 'eslint-plugin-office-addins';
import reactHooks from 'eslint-plugin-react-hooks';

/** Which rooms a room may not import from. The same arrows are held by tests/layers.test.ts, dynamic imports too. */
const wall = (files, patterns) => ({
  files,
  rules: { 'no-restricted-imports': ['error', { patterns }] },
});

export default tseslint.config(
  {
    ignores: [
      'dist/',
      'dist-preview/',
      'node_modules/',
      'coverage/',
      'artifacts/',
      '.stryker-tmp/',
      'reports/',
    ],
  },
  ...tseslint.configs.strict,
  {
    rules: {
      // An index that was just tested, or made by construction: noUncheckedIndexedAccess makes these common in
      // inner loops, and a guard that can't be reached would be a branch that no test can enter.
      '@typescript-eslint/no-non-null-assertion': 'off',
      // Brands and unions on `code` read best as they stand.
      '@typescript-eslint/unified-signatures': 'off',
      'no-console': 'error',
      eqeqeq: 'error',
    },
  },
  { files: ['src/build/**', 'tests/bench/**', 'tests/outside/report.ts'], rules: { 'no-console': 'off' } },
  { files: ['**/*.tsx', 'taskpane/**/*.ts'], ...reactHooks.configs.flat['recommended-latest'] },
  {
    files: ['src/workbook/**'],
    plugins: { 'office-addins': officeAddins },
    rules: {
      'office-addins/no-context-sync-in-loop': 'warn',
      'office-addins/no-office-initialize': 'error',
      'office-addins/test-for-null-using-isNullObject': 'error',
    },
  },
  wall(
    ['src/keying/**'],
    [
      {
        regex: '^(?!\\./|\\.\\./keying/|\\./.*)',
        message: 'The keying room is pure: no packages, no other rooms.',
      },
    ],
  ),
  wall(
    ['src/keying/grid/**'],
    [
      {
        regex: '^(?!\\./|\\.\\./[A-Za-z0-9]+\\.ts$)',
        message: 'The keying room is pure: no packages, no other rooms.',
      },
    ],
  ),
  wall(
    ['src/workbook/**'],
    [
      {
        regex: '(react|@fluentui|/taskpane/|/functions/|/preview/)',
        message: 'workbook imports keying only.',
      },
    ],
  ),
  wall(
    ['src/preview/**'],
    [
      {
        regex: '(/keying/|/workbook/|/taskpane/|/functions/)',
        message: 'The stand-in imports nothing of ours.',
      },
    ],
  ),
  wall(
    ['functions/**'],
    [{ regex: '(/workbook/|/taskpane/|/preview/|react|zod)', message: 'functions imports keying only.' }],
  ),
  {
    files: ['src/keying/**', 'functions/**', 'taskpane/**'],
    ignores: ['taskpane/preview.tsx', 'taskpane/preview/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        { name: 'Excel', message: 'Only src/workbook speaks Office.js.' },
        { name: 'localStorage', message: 'State lives in the workbook.' },
        { name: 'sessionStorage', message: 'State lives in the workbook.' },
        { name: 'alert', message: 'Dialogs are blocked in Office.' },
        { name: 'confirm', message: 'Dialogs are blocked in Office.' },
        { name: 'prompt', message: 'Dialogs are blocked in Office.' },
      ],
    },
  },
  {
    files: ['src/keying/**'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Seeds come in as arguments.' },
        { object: 'Date', property: 'now', message: 'The keying room never knows the clock.' },
        { object: 'performance', property: 'now', message: 'The keying room never knows the clock.' },
      ],
    },
  },
);
