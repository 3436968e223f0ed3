import { clock } from "../0-base/quantity.js";
import { safe } from "./markup.js";
import type { Picture, PicturePiece } from "./picture.js";

const width = 960;
const laneHeight = 34;
const [left, top] = [80, 20];

/** A plan's lanes as a picture that stands by itself: told apart by shape, readable in black and white. */
export function lanesSvg({ title, endS, stages, lanes }: Picture): string {
  const x = (seconds: number): string => (left + ((width - left - 10) * seconds) / Math.max(1, endS)).toFixed(1);
  const height = top + lanes.length * laneHeight + 24;
  const stepS = [30, 60, 120, 300, 600, 1_200].find((step) => endS / step <= 10) ?? 3_600;
  const ticks = Array.from({ length: Math.floor(endS / stepS) + 1 }, (_, at) => at * stepS);
  const piece = ({ activity, startS, endS: untilS }: PicturePiece, y: number): string => {
    const [from, wide] = [x(startS), (Number(x(untilS)) - Number(x(startS))).toFixed(1)];
    switch (activity) {
      case "work":
        return `<rect x="${from}" y="${y}" width="${wide}" height="20" fill="currentColor"/>`;
      case "hold":
        return `<rect x="${from}" y="${y + 1}" width="${wide}" height="18" fill="url(#held)" stroke="currentColor"/>`;
      case "handover":
        return `<rect x="${from}" y="${y + 7}" width="${wide}" height="6" fill="currentColor"/>`;
      case "wait":
        return `<rect x="${from}" y="${y + 7}" width="${wide}" height="6" fill="none" stroke="currentColor" stroke-dasharray="2 2"/>`;
      case "rest":
        return `<line x1="${from}" x2="${x(untilS)}" y1="${y + 10}" y2="${y + 10}" stroke="currentColor"/>`;
    }
  };
  return `<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${safe(`Lanes of ${title}`)}" font-size="12" fill="currentColor">
<defs><pattern id="held" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="6" stroke="currentColor" stroke-width="2"/></pattern></defs>
${stages.map(({ name, startS }) => `<line x1="${x(startS)}" x2="${x(startS)}" y1="4" y2="${height - 20}" stroke="currentColor" stroke-dasharray="3 3"/><text x="${x(startS)}" dx="3" y="13">${safe(name)}</text>`).join("")}
${lanes.map(({ name, pieces }, at) => `<text x="0" y="${top + at * laneHeight + 15}">${safe(name)}</text>${pieces.map((one) => piece(one, top + at * laneHeight)).join("")}`).join("\n")}
${ticks.map((seconds) => `<text x="${x(seconds)}" y="${height - 4}" text-anchor="middle">${clock(seconds)}</text>`).join("")}
</svg>`;
}
