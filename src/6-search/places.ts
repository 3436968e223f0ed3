import { type DraftPlan, type DraftLane, mapLanes } from "./draft.js";

/** A block and a lane in it; null is any of them. */
export interface LanePlace {
  readonly block: number | null;
  readonly lane: number | null;
}

export const anywhere: LanePlace = { block: null, lane: null };

/** All at once, then each block, then each lane of a block that has several. */
export function lanePlacesOf({ blocks }: DraftPlan): readonly LanePlace[] {
  const each = blocks.flatMap(({ lanes }, block) => (lanes.length > 1 ? lanes.map((_, lane) => ({ block, lane })) : []));
  return [anywhere, ...(blocks.length > 1 ? blocks.map((_, block) => ({ block, lane: null })) : []), ...each];
}

/** The draft with the lanes of one place changed. */
export function changeAt(
  draft: DraftPlan,
  place: LanePlace,
  change: (lane: DraftLane, stage: number, block: number, at: number) => DraftLane,
): DraftPlan {
  return mapLanes(draft, (lane, block, at) => {
    const number = draft.blocks.indexOf(block);
    return (place.block ?? number) === number && (place.lane ?? at) === at ? change(lane, block.stage, number, at) : lane;
  });
}
