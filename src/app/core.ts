import type { FromWorker, Question, Reply, ToWorker } from "./protocol.js";

/** The worker that keeps the notebook compiled: tells it of edits, hears its answers, asks it about places. */
export class Core {
  private readonly worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  private readonly waiting = new Map<number, (reply: Reply) => void>();
  private asked = 0;

  constructor(hear: (message: Exclude<FromWorker, { kind: "reply" }>) => void) {
    this.worker.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => {
      if (data.kind !== "reply") return hear(data);
      this.waiting.get(data.id)?.(data.reply);
      this.waiting.delete(data.id);
    });
  }

  tell(message: ToWorker): void {
    this.worker.postMessage(message);
  }

  ask(about: Question["about"], path: string, offset: number, to = ""): Promise<Reply> {
    this.asked += 1;
    const id = this.asked;
    this.tell({ kind: "ask", id, question: { about, path, offset, to } });
    return new Promise((done) => this.waiting.set(id, done));
  }
}
