import { fileURLToPath } from "node:url";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import type { Plugin, Rollup } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";

const tradeData = fileURLToPath(new URL("../inspections/trade/data", import.meta.url));
const messages = fileURLToPath(new URL("../inspections/messages/en", import.meta.url));
const fixtures = fileURLToPath(new URL("../fixtures", import.meta.url));

// What a first visit keeps at once is all that the dock can ask for without a signal; behind these doors is the rest.
const LATER = ["src/desk/index.ts", "src/camera/scan.ts", "tus-js-client/lib.esm/browser/index.js", "@noble/hashes/sha2.js"];
const first = new Set(["index.html", "icon.svg", "register.js"]);

/** Follows the entry's imports, but not through the doors of LATER. */
const dockFirst: Plugin = {
  name: "dock-first",
  generateBundle(_options, bundle) {
    const isLater = (chunk: Rollup.OutputChunk) => LATER.some((door) => chunk.facadeModuleId?.endsWith(door));
    const follow = (name: string): void => {
      const chunk = bundle[name];
      if (first.has(name) || chunk?.type !== "chunk" || isLater(chunk)) return;
      first.add(name);
      chunk.viteMetadata?.importedCss.forEach((css) => first.add(css));
      [...chunk.imports, ...chunk.dynamicImports].forEach(follow);
    };
    for (const [name, chunk] of Object.entries(bundle)) {
      if (chunk.type === "chunk" && chunk.isEntry) follow(name);
      if (/\.worker-.*\.js$/.test(name)) first.add(name);
    }
  },
};

// The build is served at the root of the site (WHITENOISE_ROOT = frontend/dist), so that
// /sw.js may answer for every page and a phone needs one address only.
export default defineConfig({
  base: "/",
  plugins: [
    svelte({ configFile: false }),
    dockFirst,
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src/offline",
      filename: "sw.ts",
      injectRegister: false,
      registerType: "prompt",
      injectManifest: {
        globPatterns: ["**/*.{js,css,html,svg,png,wasm,webmanifest}"],
        maximumFileSizeToCacheInBytes: 2 * 1024 * 1024,
        manifestTransforms: [
          (entries) => ({ manifest: entries.map((entry) => (first.has(entry.url) ? { ...entry, first: true } : entry)) }),
        ],
      },
      manifest: {
        id: "/",
        name: "Underlid receiving desk",
        short_name: "Underlid",
        description: "From the docket to the freezer door: checks, verdict and seal for frozen prawns.",
        lang: "en-GB",
        start_url: "/",
        scope: "/",
        display: "standalone",
        background_color: "#eef2f1",
        theme_color: "#0b3f3c",
        icons: [
          { src: "/icon.svg", sizes: "any", type: "image/svg+xml" },
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
    }),
  ],
  resolve: {
    alias: { "@trade-data": tradeData, "@messages": messages, "@fixtures": fixtures },
    // vitest would take Svelte's server build otherwise, and mount() would throw
    ...(process.env.VITEST ? { conditions: ["browser"] } : {}),
  },
  worker: { format: "es" },
  build: {
    target: "es2022",
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 400,
    // one file where sharing with the desk would make five: on a slow network each costs a round trip
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: "first", tags: ["$initial"], includeDependenciesRecursively: false }] } },
    },
  },
  server: {
    proxy: Object.fromEntries(["/api", "/sync", "/e", "/admin", "/static"].map((path) => [path, "http://127.0.0.1:8000"])),
    fs: { allow: [".."] },
  },
  test: { environment: "jsdom", include: ["src/**/*.test.ts"], setupFiles: ["src/testing/words.ts"], restoreMocks: true },
});
