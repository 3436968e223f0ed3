import type { Edit } from "../0-base/problem.js";
import { shift } from "../0-base/span.js";
import type { Document } from "../1-text/document.js";
import { applyEdits } from "../1-text/edits.js";
import type { Timeline } from "../4-timeline/timeline.js";
import { worsens } from "../5-findings/worse.js";
import { compile, type Compiled } from "../compile.js";

/** A notebook's documents after its fixes, and how many were applied. */
export interface Fixed {
  readonly documents: readonly Document[];
  readonly applied: number;
}

const mostFixes = 500;

/**
 * Applies fixes one by one, each time the first that helps: its finding is gone afterwards, no error is new, and no plan is
 * worse for it, unless an error goes for that. Each is tried on the compiled notebook, so a fix that would do harm is left
 * for the coach.
 */
export function fixAll(documents: readonly Document[]): Fixed {
  let now: Fixed = { documents, applied: 0 };
  let compiled = compile(documents);
  while (now.applied < mostFixes) {
    const next = firstThatHelps(now.documents, compiled);
    if (!next) break;
    now = { documents: next.documents, applied: now.applied + 1 };
    compiled = next.compiled;
  }
  return now;
}

function firstThatHelps(documents: readonly Document[], compiled: Compiled) {
  const before = countsOf(compiled);
  for (const [path, { blocks }] of compiled.documents) {
    for (const { block, findings } of blocks) {
      for (const { rule, fixes } of findings) {
        // Of two readings neither is surely meant, nor is a name that is merely near: a choice is the coach's.
        const [fix, another] = fixes;
        if (!fix || fix.guess || another) continue;
        const edits = fix.edits.map(({ span, text }): Edit => ({ span: shift(span, block.from), text }));
        const changed = documents.map((document) => (document.path === path ? { path, text: applyEdits(document.text, edits) } : document));
        const after = compile(changed, compiled);
        const counts = countsOf(after);
        const gone = (counts.byRule.get(rule) ?? 0) < (before.byRule.get(rule) ?? 0);
        if (!gone || counts.errors > before.errors) continue;
        if (counts.errors < before.errors || !makesWorse(compiled, after)) return { documents: changed, compiled: after };
      }
    }
  }
  return null;
}

/** Whether some plan that had a timeline loses by the change. */
function makesWorse(before: Compiled, after: Compiled): boolean {
  const now = new Map(timelinesOf(after));
  return timelinesOf(before).some(([name, timeline]) => {
    const then = now.get(name);
    return then === undefined || (then !== timeline && worsens(timeline, then));
  });
}

function timelinesOf({ documents }: Compiled): readonly (readonly [string, Timeline])[] {
  return [...documents.values()].flatMap(({ blocks }) =>
    blocks.flatMap(({ plan }) => (plan?.timeline ? [[plan.resolved.line.name.text, plan.timeline] as const] : [])),
  );
}

function countsOf({ documents }: Compiled): { readonly errors: number; readonly byRule: ReadonlyMap<string, number> } {
  const byRule = new Map<string, number>();
  let errors = 0;
  for (const { blocks } of documents.values()) {
    for (const { findings } of blocks) {
      for (const { rule, severity } of findings) {
        byRule.set(rule, (byRule.get(rule) ?? 0) + 1);
        if (severity === "error") errors += 1;
      }
    }
  }
  return { errors, byRule };
}
