/** Names of any script, and every word of the language as a name: in each kind of line, and all through a notebook. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { headWords, keywords } from "../../grammar/tokens.js";
import type { Document } from "../../src/1-text/document.js";
import { applyEdits } from "../../src/1-text/edits.js";
import { blocksOf } from "../../src/2-tree/blocks.js";
import { parse } from "../../src/2-tree/parse.js";
import { format } from "../../src/3-plan/format.js";
import { allKinds, lineKinds } from "../../src/3-plan/lines/kinds.js";
import type { FoundNames } from "../../src/3-plan/lines/line-kind.js";
import { keyOf, type Occurrence, occurrencesIn } from "../../src/3-plan/occurrences.js";
import type { Clauses, Word } from "../../src/3-plan/parts.js";
import { readBlock } from "../../src/3-plan/read.js";
import { rename } from "../../src/3-plan/rename.js";
import { compile } from "../../src/compile.js";
import { findingsOf, lighthouse, meaning } from "../notebook.js";

const words = [...new Set([...headWords, ...keywords.flatMap(([, ...spellings]) => spellings)])];
const scripts = [
  "Zoë",
  "Ηρώ",
  "Миша",
  "李娜",
  "رنا",
  "दीपा",
  "สุดา",
  "지우",
  "O'Dea",
  "Ann-Lie",
  "ß",
  "İpek",
  "x2",
  "10 mile",
  "a, b",
  "7-6",
  "@ 5 kg",
  "1:30",
];
const oneName = fc.oneof(
  fc.constantFrom(...words),
  fc.constantFrom(...words.map((word) => word.toUpperCase())),
  fc.constantFrom(...scripts),
  fc.tuple(fc.constantFrom(...scripts), fc.constantFrom(...words)).map((two) => two.join(" ")),
  fc.string({ unit: "grapheme", minLength: 1, maxLength: 8 }).filter((text) => /^[\p{L}\p{N}][^\p{C}\p{Z}"]*$/u.test(text)),
);

function readAlone(text: string) {
  const [block] = blocksOf(text, parse(text).tree);
  return block ? readBlock(block).line : null;
}

/** The places of a line's names. */
function placesOf(text: string): readonly Word[] {
  const line = readAlone(text);
  if (!line || line.kind === "broken") return [];
  const places: Word[] = [];
  const found: FoundNames = {
    plan: null,
    event: null,
    isAthlete: (name) => /^\p{Lu}/u.test(name),
    add: (_kind, word) => void (word && places.push(word)),
    who: (all) => void places.push(...all),
    clauses: ({ hold }: Clauses) => void (hold && places.push(...hold.who, ...(hold.hold ? [hold.hold] : []))),
    formula: () => undefined,
  };
  lineKinds[line.kind].names?.(line as never, found);
  return places;
}

const named = allKinds.flatMap((kind) =>
  // The parts of a body are eight words of the language.
  kind.kind === "asks" ? [] : kind.samples.filter((sample) => placesOf(sample).length > 0).map((sample) => [kind.kind, sample] as const),
);

describe("a line with names", () => {
  it.each(named)("of the kind “%s” means the same after formatting, whatever the names in “%s”", (kind, sample) => {
    const places = placesOf(sample);
    fc.assert(
      fc.property(fc.array(oneName, { minLength: places.length, maxLength: places.length }), (names) => {
        const typed = applyEdits(
          sample,
          places.map(({ span }, at) => ({ span, text: `"${names[at]}"` })),
        );
        const before = readAlone(typed);
        expect(before?.kind).toBe(kind);
        const formatted = format(typed);
        expect(meaning(readAlone(formatted))).toEqual(meaning(before));
        expect(format(formatted)).toBe(formatted);
      }),
      { seed: 7, numRuns: 30 },
    );
  });
});

describe("a notebook with other names", () => {
  const oneWord = fc
    .oneof(fc.constantFrom(...words), fc.constantFrom("Zoë", "Ηρώ", "Миша", "李娜", "رنا", "दीपा", "สุดา", "지우", "ß", "İpek", "Ann-Lie"))
    .filter((word) => /^\p{L}[\p{L}\p{M}-]*$/u.test(word) && !/s$/i.test(word));

  function namesIn(documents: readonly Document[]): ReadonlyMap<string, readonly Occurrence[]> {
    const { documents: compiled, kept } = compile(documents);
    return occurrencesIn({
      documents: [...compiled].map(([path, { document }]) => ({ path, blocks: document.blocks })),
      world: kept.world,
    });
  }

  /** Of each plan its end and reps, of each document the rules of its findings. */
  function outcome(documents: readonly Document[]) {
    const compiled = compile(documents);
    return {
      findings: findingsOf(compiled).map(({ rule, path }) => `${path} ${rule}`),
      plans: [...compiled.documents.values()].flatMap(({ blocks }) =>
        blocks.flatMap(({ plan }) => (plan?.timeline ? [[plan.timeline.endS, plan.timeline.stages.map(({ reps }) => reps)]] : [])),
      ),
    };
  }

  it("has the same plans and the same findings, before and after formatting", () => {
    const before = outcome(lighthouse);
    const declared = [...namesIn(lighthouse).values()].flatMap((names) => names.filter(({ declares }) => declares));
    const targets = [...new Map(declared.map((name) => [keyOf(name), name])).values()];
    fc.assert(
      fc.property(
        fc.uniqueArray(oneWord, { minLength: 6, maxLength: 6 }),
        fc.shuffledSubarray(targets, { minLength: 6, maxLength: 6 }),
        (names, some) => {
          let documents: readonly Document[] = lighthouse;
          some.forEach((target, at) => {
            const done = rename(namesIn(documents), target, names[at] ?? "");
            if (done.ok) documents = documents.map(({ path, text }) => ({ path, text: applyEdits(text, done.edits.get(path) ?? []) }));
          });
          expect(outcome(documents)).toEqual(before);
          expect(outcome(documents.map(({ path, text }) => ({ path, text: format(text) })))).toEqual(before);
        },
      ),
      { seed: 7, numRuns: 4 },
    );
  });
});
