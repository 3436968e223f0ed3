import { type Draft, type DraftLane, mapLanes } from "./draft.js";

/** A block and a lane in it; null is any of them. */
export interface Place {
  readonly block: number | null;
  readonly lane: number | null;
}

export const anywhere: Place = { block: null, lane: null };

/** All at once, then each block, then each lane of a block that has several. */
export function placesOf({ blocks }: Draft): readonly Place[] {
  const each = blocks.flatMap(({ lanes }, block) => (lanes.length > 1 ? lanes.map((_, lane) => ({ block, lane })) : []));
  return [anywhere, ...(blocks.length > 1 ? blocks.map((_, block) => ({ block, lane: null })) : []), ...each];
}

/** The draft with the lanes of one place changed. */
export function changeAt(
  draft: Draft,
  place: Place,
  change: (lane: DraftLane, stage: number, block: number, at: number) => DraftLane,
): Draft {
  return mapLanes(draft, (lane, block, at) => {
    const number = draft.blocks.indexOf(block);
    return (place.block ?? number) === number && (place.lane ?? at) === at ? change(lane, block.stage, number, at) : lane;
  });
}
