import { linesOf } from "../1-text/document.js";
import { type Parcel, parcelMark } from "../1-text/parcel.js";
import { type AnsweredNotebook, shownByLine } from "./answered-block.js";
import { cardsHtml, cardStyle } from "./card-page.js";
import { cardsOf, wallOf } from "./cards.js";
import { caution } from "./cautions.js";
import { lanesSvg } from "./lanes-svg.js";
import { safe } from "./markup.js";
import { pictureOf } from "./picture.js";

/**
 * A document as one page that needs nothing else: its text with answers, its plans' lanes, the cards; and, in `parcel`, the
 * documents themselves, so that Rotaline can open it again. It has no script, and a policy that allows none.
 */
export function singlePage(path: string, { documents }: AnsweredNotebook, parcel: Parcel): string {
  const found = documents.get(path);
  const text = found?.document.parsed.text ?? "";
  const answers = shownByLine(found?.blocks ?? []);
  const rows = linesOf(text).map((line, at) => `<tr><td>${safe(line) || "&#160;"}</td><td>${safe(answers.get(at) ?? "")}</td></tr>`);
  const plans = (found?.blocks ?? []).flatMap(({ plan }) =>
    plan?.resolved.plan && plan.timeline ? [{ plan, spec: plan.resolved.plan, timeline: plan.timeline }] : [],
  );
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="content-security-policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
${parcelMark(parcel)}
<title>${safe(path)}</title><style>${cardStyle}${style}</style></head>
<body><main><h1>${safe(path)}</h1><p class="caution">${safe(caution)}</p>
<table class="text"><tbody>${rows.join("\n")}</tbody></table>
${plans
  .map(({ plan, spec, timeline }) => {
    const picture = pictureOf(plan, null);
    return picture
      ? `<section><h2>${safe(picture.title)}, ${safe(picture.score)}</h2>${lanesSvg(picture)}</section>
${cardsHtml(cardsOf(spec, timeline), wallOf(spec, timeline))}`
      : "";
  })
  .join("\n")}
<p class="caution">Rotaline opens this page again: Document, Open a file.</p></main></body></html>
`;
}

const style = `
.text td { vertical-align: top; white-space: pre-wrap; font-size: .85rem; border: 0; padding: 0 .6rem 0 0; }
.text td:first-child { font-family: ui-monospace, monospace; width: 60%; }
svg { display: block; width: 100%; height: auto; }
@media print { .text td { font-size: 8pt; } }
`;
