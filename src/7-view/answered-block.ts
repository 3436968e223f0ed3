import { once } from "../0-base/once.js";
import type { Problem } from "../0-base/problem.js";
import type { OpenDocument, PlacedBlock } from "../3-plan/open.js";
import type { ResolvedPlan } from "../3-plan/plan.js";
import type { Entry } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { type Evaluation, hangingKinds } from "../4-timeline/evaluate.js";
import type { Kept, PlanResult } from "../4-timeline/kept.js";
import type { Days } from "../4-timeline/spread.js";
import type { Timeline } from "../4-timeline/timeline.js";
import type { WeekRun } from "../4-timeline/week.js";
import { type Finding, judge } from "../5-findings/judge.js";
import type { Answer } from "./answer.js";
import { blockAnswers } from "./block-answers.js";

/** A notebook's documents with all that is said of them. */
export interface AnsweredNotebook {
  readonly documents: ReadonlyMap<string, { readonly document: OpenDocument; readonly blocks: readonly AnsweredBlock[] }>;
  readonly kept: Kept;
  /** How a plan goes on many days. */
  readonly daysOf: (plan: PlanResult) => Days | null;
}

/** What was made of a block, with what bears on it besides its text. */
interface Made<T> {
  readonly value: T;
  readonly abilities: Abilities;
  readonly plan: ResolvedPlan | null;
  readonly timeline: Timeline | null;
}

/**
 * A block in its place with all that is said of it, each when first asked for; offsets and lines inside count from the
 * block's start. Answers and findings are those of an earlier compilation, as the same objects, where the block's text,
 * its plan's timeline, its problems and the declarations are the same. What was made is handed on, never the way to make
 * it: a compilation that was not asked keeps none before it alive.
 */
export class AnsweredBlock {
  private readonly made: {
    readonly plan: () => PlanResult | null;
    readonly week: () => WeekRun | null;
    readonly answers: () => readonly Answer[];
    readonly findings: () => readonly Finding[];
  };
  private readonly abilities: Abilities;
  /** Whether nothing but the declarations and its own text bears on what is said of it. */
  private readonly alone: boolean;
  /** The last ones made, here or in a compilation before. */
  private answered: Made<readonly Answer[]> | null;
  private found: Made<readonly Finding[]> | null;

  /** `met`: problems that the notebook around the block gave it. */
  constructor(
    readonly block: Entry & PlacedBlock,
    met: readonly Problem[],
    evaluation: Evaluation,
    before: AnsweredBlock | null,
  ) {
    const { line, problems } = block.read;
    const plan = once(() => (line.kind === "plan" ? evaluation.planOf(block, line) : null));
    const own = (): readonly Problem[] => [...problems, ...met, ...(plan()?.resolved.problems ?? []), ...evaluation.problemsOf(line)];
    this.alone = met.length === 0 && !hangingKinds.has(line.kind);
    this.abilities = evaluation.abilities;
    this.answered = this.alone && before?.alone ? before.answered : null;
    this.found = this.alone && before?.alone ? before.found : null;
    this.made = {
      plan,
      week: once(() => (line.kind === "week" ? evaluation.week(line) : null)),
      answers: once(() => {
        this.answered = this.upToDate(this.answered, () => blockAnswers(line, block.text, plan(), evaluation));
        return this.answered.value;
      }),
      findings: once(() => {
        this.found = this.upToDate(this.found, () => judge({ line, text: block.text, problems: own(), plan: plan(), evaluation }));
        return this.found.value;
      }),
    };
  }

  get plan(): PlanResult | null {
    return this.made.plan();
  }

  get week(): WeekRun | null {
    return this.made.week();
  }

  get answers(): readonly Answer[] {
    return this.made.answers();
  }

  get findings(): readonly Finding[] {
    return this.made.findings();
  }

  private upToDate<T>(earlier: Made<T> | null, make: () => T): Made<T> {
    const { abilities, plan } = this;
    const [resolved, timeline] = [plan?.resolved ?? null, plan?.timeline ?? null];
    if (earlier?.abilities === abilities && earlier.plan === resolved && earlier.timeline === timeline) return earlier;
    return { value: make(), abilities, plan: resolved, timeline };
  }
}

/** What is said beside each line of a document, by the line's number from 0. */
export function shownByLine(blocks: readonly AnsweredBlock[]): ReadonlyMap<number, string> {
  return new Map(blocks.flatMap(({ block, answers }) => answers.map(({ line, shown }) => [block.firstLine + line, shown] as const)));
}
