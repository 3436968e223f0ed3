import type { DraftBlock, DraftLane, DraftPlan } from "./draft.js";

/** Who works with whom and where, in words; the same for drafts of the same kind. */
export function kindOf({ event, blocks }: DraftPlan): string {
  if (event.windows.length > 0 && blocks.some(({ lanes }) => lanes.length > 1)) return "side by side";
  const stagesBy = new Map<string, string[]>();
  for (const block of blocks) {
    const words = blockWords(block);
    stagesBy.set(words, [...(stagesBy.get(words) ?? []), event.stages[block.stage]?.name ?? ""]);
  }
  const [only, ...others] = stagesBy.keys();
  if (only !== undefined && others.length === 0) return only;
  return [...stagesBy].map(([words, stages]) => `${words} at ${stages.join(" and ")}`).join(", ");
}

function blockWords({ lanes }: DraftBlock): string {
  const casts = lanes.map(castsIn);
  const alone = casts.flat().every(({ length }) => length === 1);
  const apart = lanes.length > 1 && casts.every(({ length }) => length === 1);
  if (lanes.every(({ station }) => station === null)) {
    if (alone && lanes.length === 1) return "one at a time";
    if (apart) return alone ? "all at once" : `${castsWords(casts.flat())} at once`;
  }
  return lanes.map((lane) => `${castsWords(castsIn(lane))}${lane.station === null ? "" : ` at ${lane.station}`}`).join(" beside ");
}

function castsIn({ turns }: DraftLane): readonly (readonly string[])[] {
  return [...new Map(turns.map(({ who }) => [who.join(), who])).values()];
}

function castsWords(casts: readonly (readonly string[])[]): string {
  return casts.map((who) => who.join(" + ")).join(casts.some(({ length }) => length > 1) ? ", " : " and ");
}
