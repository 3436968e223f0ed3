import { mergeDiff3 } from "node-diff3";

/**
 * One text of two that were written from the same third, by lines: what either changed. Null where both changed the
 * same place, each in another way.
 */
export function merged(mine: string, base: string, theirs: string): string | null {
  // Line ends stand between the lines as pieces of their own: a change of one line does not touch the next.
  const lines = (text: string): string[] => text.split(/(\n)/);
  const { conflict, result } = mergeDiff3(lines(mine), lines(base), lines(theirs), { excludeFalseConflicts: true });
  return conflict ? null : result.join("");
}
