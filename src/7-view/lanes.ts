import { clock } from "../0-base/quantity.js";
import type { Activity, Timeline } from "../4-timeline/timeline.js";

/** How each activity is drawn in text: told apart by shape, not colour. */
export const activityMarks: Readonly<Record<Activity, string>> = { work: "█", hold: "≡", rest: "·", handover: "|", wait: "-" };

/**
 * A timeline as lines of text, one an athlete, `width` columns for the whole plan. A column shows the activity that
 * fills most of it.
 */
export function drawLanes(timeline: Timeline, width: number): string {
  const { endS, segments, athletes } = timeline;
  if (endS <= 0) return "nothing happens in this plan\n";
  const label = Math.max(4, ...athletes.map(({ name }) => name.length));
  const columnS = endS / width;
  const rows = athletes.map(({ name }) => {
    const own = segments.filter(({ athlete }) => athlete === name);
    const marks = Array.from({ length: width }, (_, column) => {
      const spent = new Map<Activity, number>();
      for (const { activity, startS, endS: stopS } of own) {
        const seconds = Math.min(stopS, (column + 1) * columnS) - Math.max(startS, column * columnS);
        if (seconds > 0) spent.set(activity, (spent.get(activity) ?? 0) + seconds);
      }
      const [most] = [...spent].sort((a, b) => b[1] - a[1]);
      return activityMarks[most?.[0] ?? "rest"];
    });
    return `${name.padEnd(label)}  ${marks.join("")}`;
  });
  const axis = `${" ".repeat(label)}  ${clock(0)}${clock(endS).padStart(width - 4)}`;
  const key = Object.entries(activityMarks)
    .map(([activity, mark]) => `${mark} ${activity}`)
    .join("   ");
  return [...rows, axis, "", key, ""].join("\n");
}
