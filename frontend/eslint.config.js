// What the compiler and svelte-check do not see: floating promises, unused names, keys in loops.
import js from "@eslint/js";
import svelte from "eslint-plugin-svelte";
import globals from "globals";
import ts from "typescript-eslint";

export default ts.config(
  { ignores: ["dist"] },
  js.configs.recommended,
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  { languageOptions: { globals: { ...globals.browser, ...globals.node } } },
  {
    files: ["**/*.svelte", "**/*.svelte.ts"],
    languageOptions: { parserOptions: { parser: ts.parser } },
  },
  {
    rules: {
      // GS1 parts its fields with the control character 29.
      "no-control-regex": "off",
      // A date or set that is made and read within one function needs no reactivity.
      "svelte/prefer-svelte-reactivity": "off",
      // svelte-check, which knows the types, tells which of these comments are needed.
      "svelte/no-unused-svelte-ignore": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
    },
  },
  {
    files: ["src/testing/**"],
    // Arguments come from JSON, so their types are only known to the vector.
    rules: { "@typescript-eslint/no-explicit-any": "off" },
  },
);
