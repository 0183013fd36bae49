// Typed rules only; layout and plain lint are biome's.
import tseslint from 'typescript-eslint';

export default tseslint.config({
  files: ['grammar/**/*.ts', 'server/**/*.ts', 'client/**/*.ts'],
  ignores: ['client/preview/**'],
  extends: [tseslint.configs.base],
  languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
  rules: {
    '@typescript-eslint/no-explicit-any': 'error',
    '@typescript-eslint/no-floating-promises': 'error',
    '@typescript-eslint/no-misused-promises': 'error',
    '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
    '@typescript-eslint/no-unnecessary-type-assertion': 'error',
    '@typescript-eslint/await-thenable': 'error',
    '@typescript-eslint/only-throw-error': 'error',
    '@typescript-eslint/consistent-type-imports': 'error',
  },
});
