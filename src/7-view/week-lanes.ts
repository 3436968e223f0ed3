import type { WeekPicture } from "./week-picture.js";

/** Heights for what is back, in eight steps from `least` to all of it. */
const heights = "▁▂▃▄▅▆▇█";
const least = 0.8;
const columnsADay = 6;

/** A week's picture in text: under each day what the least recovered of the team has back, part by part, then events and rest. */
export function drawWeek({ days, parts, sessions, due }: WeekPicture): string {
  const label = Math.max(8, ...parts.map(({ part }) => part.length + 1));
  const row = (name: string, cells: readonly string[]): string =>
    `${name.padEnd(label)}${cells.map((cell) => cell.padEnd(columnsADay)).join(" ")}`.trimEnd();
  const until = (at: number): number => days[at + 1]?.fromS ?? Number.POSITIVE_INFINITY;
  const level = (part: WeekPicture["parts"][number], fromS: number): string =>
    Array.from({ length: columnsADay }, (_, at) => {
      const back = part.points.findLast((point) => point.atS <= fromS + (at + 0.5) * (86_400 / columnsADay))?.least ?? 1;
      return heights[Math.max(0, Math.min(heights.length - 1, Math.floor(((back - least) / (1 - least)) * heights.length)))] ?? "";
    }).join("");
  const marks = days.map(({ fromS, rest }, at) => {
    const events = sessions.flatMap(({ startS }, number) =>
      fromS <= startS && startS < until(at) ? [String.fromCharCode(65 + number)] : [],
    );
    const dueHere = due && fromS <= due.atS && due.atS < until(at) ? ["due"] : [];
    return [...(rest && events.length === 0 ? ["rest"] : events), ...dueHere].join(" ");
  });
  return (
    [
      row(
        "",
        days.map(({ weekday, date }) => `${weekday} ${date.slice(8)}`),
      ),
      row("", marks),
      ...parts.map((part) =>
        row(
          part.part,
          days.map(({ fromS }) => level(part, fromS)),
        ),
      ),
      "",
      ...sessions.map(({ words }, number) => `${String.fromCharCode(65 + number)}  ${words}`),
      ...(due ? [`   ${due.words}`] : []),
      ...parts.map(({ words }) => `   ${words}`),
      `${heights[0]} ${Math.round(least * 100)} % back or less, ${heights.at(-1)} all of it: whoever of the team is least recovered`,
    ].join("\n") + "\n"
  );
}
