import type { FromWorker, Question, Reply, ToWorker } from "./protocol.js";

/** The worker that keeps the notebook compiled: tells it of edits, hears its answers, asks it about places. */
export class Core {
  private worker: Worker | null = null;
  /** What it will be told when it is there. */
  private early: ToWorker[] = [];
  private readonly waiting = new Map<number, (reply: Reply) => void>();
  private asked = 0;
  hear: (message: Exclude<FromWorker, { kind: "reply" }>) => void = () => undefined;

  /** Starts the worker, if it is not there yet. */
  start(): void {
    if (this.worker) return;
    this.worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    this.worker.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => {
      if (data.kind !== "reply") return this.hear(data);
      this.waiting.get(data.id)?.(data.reply);
      this.waiting.delete(data.id);
    });
    for (const message of this.early) this.worker.postMessage(message);
    this.early = [];
  }

  tell(message: ToWorker): void {
    if (this.worker) this.worker.postMessage(message);
    else this.early.push(message);
  }

  ask(about: Question["about"], path: string, offset: number, to = "", more: Pick<Question, "marks" | "received"> = {}): Promise<Reply> {
    this.asked += 1;
    const id = this.asked;
    this.tell({ kind: "ask", id, question: { about, path, offset, to, ...more } });
    return new Promise((done) => this.waiting.set(id, done));
  }
}
