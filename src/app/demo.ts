import type { Document } from "../1-text/document.js";

const found = import.meta.glob<string>("../../notebooks/lighthouse/*.rota", { query: "?raw", import: "default", eager: true });

/** The demo notebook, for a page without a server: an invented team in an invented series. */
export const demo: readonly Document[] = Object.entries(found).map(([path, text]) => ({ path: path.split("/").at(-1) ?? path, text }));
