import { defineConfig } from "vitest/config";

export default defineConfig({
  root: "src/app",
  base: "./",
  build: { outDir: "../../dist/page", emptyOutDir: true, target: "es2022" },
  worker: { format: "es" },
  test: { root: ".", include: ["tests/**/*.test.ts"], testTimeout: 30_000, hookTimeout: 60_000 },
});
