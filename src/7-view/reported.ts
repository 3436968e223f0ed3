import type { PlacedBlock } from "../3-plan/open.js";
import type { PlanResult } from "../4-timeline/kept.js";
import type { WeekRun } from "../4-timeline/week.js";
import type { Finding } from "../5-findings/judge.js";
import type { Answer } from "./answer.js";

/** A block with what is said of it, as the compiler gives it. */
export interface ReportedBlock {
  readonly block: PlacedBlock;
  readonly answers: readonly Answer[];
  readonly findings: readonly Finding[];
  readonly plan: PlanResult | null;
  readonly week: WeekRun | null;
}

export interface ReportedDocument {
  readonly path: string;
  readonly text: string;
  readonly blocks: readonly ReportedBlock[];
}
