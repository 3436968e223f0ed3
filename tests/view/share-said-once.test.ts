import { expect, it } from "vitest";
import { drawnIn } from "../../src/compile.js";
import { answersWithDays } from "../../src/7-view/spread-words.js";
import { spreadPicture } from "../../src/7-view/spread-picture.js";
import { compileText } from "../notebook.js";

/** A cap that a plan meets on some days and misses on others. */
const text = `team Pier Nine
  Ada woman
  Olu man
ability  Ada  Olu
  box jump  unbroken  12  14  reps
  box jump  cycle  2  2  s
event Sprint
  cap 6:35
  stage 60 box jump
plan Simple for Sprint
  repeat
    Ada 4
    Olu 4
`;

it("the share of days that finish is the same beside the plan and in the picture", () => {
  const compiled = compileText(text);
  const drawn = drawnIn(compiled);
  const block = [...compiled.documents.values()].flatMap(({ blocks }) => blocks).find(({ plan }) => plan?.timeline);
  const beside = block
    ? answersWithDays(block, drawn)
        .map(({ shown }) => shown)
        .join(" ")
    : "";
  const days = block?.plan ? drawn.of(block.plan) : null;
  const [, share] = /(\d+ %) of days finish/.exec(beside) ?? [];
  expect(Number.parseInt(share ?? "", 10)).toBeGreaterThan(2);
  expect(days && spreadPicture(days)?.words).toContain(`${share} of days finish inside the cap`);
});
