import { counted } from "../0-base/quantity.js";
import { cardCaution } from "./cautions.js";
import { codeOf } from "./code.js";
import { safe } from "./markup.js";
import type { Card, CardPart, Wall, WallRow } from "./cards.js";

/**
 * Cards and the wall's sheet as one page that needs nothing else: an A6 page an athlete, an A4 page for the wall. With a link
 * that a code can hold, a page with the code goes behind them.
 */
export function cardPage(cards: readonly Card[], wall: Wall, link = ""): string {
  const title = `${wall.plan} for ${wall.event}`;
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${safe(title)}</title><style>${cardStyle}</style></head>
<body><main>${cardsHtml(cards, wall)}${codeHtml(wall, link)}</main></body></html>
`;
}

function codeHtml({ plan }: Wall, link: string): string {
  const code = link === "" ? null : codeOf(link);
  return code === null
    ? ""
    : `\n<section class="wall code"><h1>${safe(plan)}: open it on a phone</h1>${code}<p>The code holds the plan itself. What it opens is read-only until it is kept.</p></section>`;
}

/** The cards and the sheet as sections of a page that has their style. */
export function cardsHtml(cards: readonly Card[], wall: Wall): string {
  return `${cards.map(cardHtml).join("\n")}\n${wallHtml(wall)}`;
}

export const cardStyle = `
:root { color-scheme: light dark; }
body { margin: 0; font: 1rem/1.35 system-ui, sans-serif; background: Canvas; color: CanvasText; }
main { max-width: 52rem; margin: 0 auto; padding: .6rem; }
section { break-after: page; padding: .6rem 0 1.4rem; border-bottom: 2px solid; }
h1, h2, p { margin: 0; }
h1 { font-size: 1.5rem; }
h2 { margin-top: .7rem; font-size: 1rem; border-top: 1px solid; }
.checks, .score, .caution { font-size: .85rem; }
.checks { font-weight: 600; }
ol, ul { margin: .1rem 0; padding: 0 0 0 .9rem; list-style: none; }
li { break-inside: avoid; padding: .1rem 0; }
li > .when { float: right; padding-left: .6rem; font-size: .85rem; font-variant-numeric: tabular-nums; }
.work { font-weight: 600; }
.hold::before { content: "\\2261\\00a0"; }
.work::before { content: "\\25A0\\00a0"; }
.rest { font-size: .85rem; }
.next { font-weight: 400; font-size: .85rem; }
.cue { font-style: italic; font-weight: 400; }
.head { font-size: .85rem; text-decoration: underline; }
.standards { font-size: .85rem; list-style: square; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { text-align: left; padding: .25rem .4rem; border-bottom: 1px solid; }
tbody tr { break-inside: avoid; }
.stage th { border-bottom-width: 3px; padding-top: .6rem; }
.code svg { display: block; width: min(100%, 14cm); margin: .6rem auto; background: #fff; }
@page card { size: 105mm 148mm; margin: 6mm; }
@page wall { size: A4; margin: 12mm; }
@media print {
  :root { color-scheme: light; }
  main { max-width: none; padding: 0; }
  section { border: 0; padding: 0; }
  .card { page: card; font-size: 7.5pt; line-height: 1.22; }
  .card h1 { font-size: 12pt; }
  .card h2 { margin-top: 1.2mm; font-size: 8pt; }
  .card .checks, .card .score, .card .rest, .card .next, .card .when, .card .head, .card .standards, .card .caution { font-size: 6.8pt; }
  .card li { padding: .1mm 0; }
  .wall { page: wall; break-after: auto; font-size: 13pt; }
}
`;

function cardHtml({ athlete, plan, event, score, parts, cues, standards, remember }: Card): string {
  return `<section class="card"><h1>${safe(athlete)}</h1><p class="score">${safe(plan)} for ${safe(event)}, ${safe(score)} on paper; ${counted(remember, "thing")} to remember</p>
${stagesHtml(parts)}${cuesHtml(cues)}${standards.length > 0 ? `<h2>What counts</h2><ul class="standards">${standards.map((standard) => `<li>${safe(standard)}</li>`).join("")}</ul>` : ""}
<p class="caution">${safe(cardCaution)}</p></section>`;
}

/** Stages are heads with their lists; what stands outside any stage is a list of its own. */
function stagesHtml(parts: readonly CardPart[]): string {
  return parts
    .map((part) =>
      part.kind === "stage"
        ? `<h2>${safe(part.title)}</h2>${part.checks.length > 0 ? `<p class="checks">team: ${safe(part.checks.join(", "))}</p>` : ""}${cuesHtml(part.cues)}<ol>${part.parts.map(partHtml).join("")}</ol>`
        : `<ol>${partHtml(part)}</ol>`,
    )
    .join("");
}

function partHtml(part: CardPart): string {
  if (part.kind === "stage") return `<li>${stagesHtml([part])}</li>`;
  if (part.kind === "loop")
    return `<li><span class="head">${safe(part.head)}</span>${cuesHtml(part.cues)}<ol>${part.parts.map(partHtml).join("")}</ol></li>`;
  const { kind, what, when, next, cues } = part;
  return `<li class="${kind}">${when === "" ? "" : `<span class="when">${safe(when)}</span>`}${safe(what)}${next === null ? "" : ` <span class="next">then ${safe(next)}</span>`}${cuesHtml(cues)}</li>`;
}

function cuesHtml(cues: readonly string[]): string {
  return cues.map((cue) => `<p class="cue">“${safe(cue)}”</p>`).join("");
}

function wallHtml({ plan, event, score, athletes, rows, cautions }: Wall): string {
  const row = ({ kind, when, words, cells }: WallRow): string =>
    kind === "turn"
      ? `<tr><td>${safe(when)}</td><th scope="row">${safe(words)}</th>${cells.map((cell) => `<td>${safe(cell)}</td>`).join("")}</tr>`
      : `<tr class="${kind}"><th colspan="${athletes.length + 2}" scope="colgroup">${safe(words)}</th></tr>`;
  return `<section class="wall"><h1>${safe(plan)} for ${safe(event)}</h1><p class="score">${safe(score)} on paper</p>
<table><thead><tr><th scope="col">when</th><th scope="col">who works</th>${athletes.map((name) => `<th scope="col">${safe(name)}</th>`).join("")}</tr></thead><tbody>${rows.map(row).join("")}</tbody></table>
<p class="caution">${safe(cautions)}</p></section>`;
}
