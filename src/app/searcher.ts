import type { FromSearch, ToSearch } from "./protocol.js";

/** The worker that searches, started when it is first asked. */
export class Searcher {
  private worker: Worker | null = null;

  constructor(private readonly hear: (message: FromSearch) => void) {}

  ask(message: ToSearch): void {
    if (!this.worker) {
      this.worker = new Worker(new URL("./search-worker.ts", import.meta.url), { type: "module" });
      this.worker.addEventListener("message", ({ data }: MessageEvent<FromSearch>) => this.hear(data));
    }
    this.worker.postMessage(message);
  }

  /** Ends what is under way; what there is stays. */
  stop(): void {
    this.worker?.postMessage({ kind: "stop" } satisfies ToSearch);
  }
}
