import type { Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

/** The page's own code is fetched beside its first script, not after it. */
const fetchAhead: Plugin = {
  name: "fetch-ahead",
  transformIndexHtml: {
    order: "post",
    handler: (_html, { bundle = {} }) =>
      Object.values(bundle).flatMap((file) =>
        file.name === "rota-app"
          ? [{ tag: "link", attrs: { rel: "modulepreload", href: `./${file.fileName}` }, injectTo: "head" as const }]
          : [],
      ),
  },
};

export default defineConfig({
  root: "src/app",
  base: "./",
  build: { outDir: "../../dist/page", emptyOutDir: true, target: "es2022", chunkSizeWarningLimit: 600 },
  worker: { format: "es" },
  plugins: [
    fetchAhead,
    VitePWA({
      filename: "service-worker.js",
      injectRegister: false,
      registerType: "prompt",
      manifest: {
        name: "Rotaline",
        short_name: "Rotaline",
        description: "A notebook of plain-text plans for partner competitions.",
        start_url: ".",
        display: "standalone",
        background_color: "#f6f2e9",
        theme_color: "#12414a",
        icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
      workbox: {
        // The page itself is asked for first: a server gives it a token with each start. Without an answer the last one is shown.
        globPatterns: ["**/*.{js,css,svg}"],
        navigateFallback: null,
        runtimeCaching: [
          {
            urlPattern: ({ request }) => request.mode === "navigate",
            handler: "NetworkFirst",
            options: { cacheName: "page", networkTimeoutSeconds: 3 },
          },
        ],
      },
    }),
  ],
  test: {
    root: ".",
    include: ["tests/**/*.test.ts"],
    isolate: false,
    maxWorkers: availableParallelism(),
    testTimeout: 60_000,
    hookTimeout: 60_000,
    expect: { poll: { timeout: 20_000 } },
  },
});
