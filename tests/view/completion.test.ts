/** What is offered where the cursor (|) stands, in the demo notebook with a document of one's own. */
import { describe, expect, it } from "vitest";
import { headWords } from "../../grammar/tokens.js";
import { occurrencesIn } from "../../src/3-plan/occurrences.js";
import { compile } from "../../src/compile.js";
import { completionsAt } from "../../src/7-view/completion.js";
import { declarationOf, helpAt, nameAt } from "../../src/7-view/name-help.js";
import { filled, snippets } from "../../src/7-view/snippets.js";
import { eventText, teamText } from "../../src/7-view/begun-text.js";
import { eventKinds } from "../../src/7-view/event-kinds.js";
import { firstStep } from "../../src/7-view/first-steps.js";
import { templates } from "../../src/7-view/template-list.js";
import { firstPlan, templateText } from "../../src/7-view/templates.js";
import { found } from "../../src/7-view/text-search.js";
import { wordHelp } from "../../src/7-view/word-help.js";
import { compileText, findingsOf, lighthouse } from "../notebook.js";

function notebookWith(text: string) {
  const { documents, kept } = compile([...lighthouse, { path: "mine.rota", text }]);
  return { documents: [...documents].map(([path, { document }]) => ({ path, blocks: document.blocks })), world: kept.world };
}

/** The labels offered, with what they would replace. */
function offered(marked: string): { readonly replaces: string; readonly labels: readonly string[] } {
  const offset = marked.indexOf("|");
  const text = marked.replace("|", "");
  const found = completionsAt(notebookWith(text), text, offset);
  return { replaces: text.slice(found?.from ?? offset, offset), labels: found?.options.map(({ label }) => label) ?? [] };
}

const plan = "plan Mine for Breakwater\n  pair A  Ines + Bram\n  stage squats\n";

describe("completion", () => {
  it("offers athletes and the plan's own pairs where somebody works", () => {
    expect(offered(`${plan}    |`).labels).toEqual(expect.arrayContaining(["A", "Bram", "Ines", "Marta", "Tariq", "repeat", "rest"]));
    expect(offered(`${plan}    |`).labels).not.toContain("B");
    expect(offered(`${plan}    M|`)).toEqual({ replaces: "M", labels: ["Marta"] });
  });

  it("offers athletes and pairs after while, and hold after them", () => {
    expect(offered(`${plan}    A 7 each while T|`)).toEqual({ replaces: "T", labels: ["Tariq"] });
    expect(offered(`${plan}    A 7 each while Tariq |`).labels).toEqual(expect.arrayContaining(["hold"]));
  });

  it("offers how a set may be done after its size", () => {
    const { labels } = offered(`${plan}    A 7 |`);
    expect(labels).toEqual(expect.arrayContaining(["each", "in sync", "together", "shared", "as", "while"]));
    expect(labels).not.toContain("cap");
  });

  it("offers the stages of the plan's own event", () => {
    expect(offered("plan Mine for Breakwater\n  stage |").labels).toEqual(["logs", "rows", "squats"]);
    expect(offered("plan Mine for Two Ladders\n  stage |").labels).toEqual(["ring dip"]);
  });

  it("offers events for a plan, plans to compare, stations for a lane", () => {
    expect(offered("plan Mine for |").labels).toEqual(["Breakwater", "Double Shift", "Sprint", "Tandem Tide", "Two Ladders"]);
    expect(offered("compare |").labels).toEqual(expect.arrayContaining(["Bold", "Steady", "Split", "Matched"]));
    expect(offered("plan Mine for Two Ladders\n  lane one on |").labels).toEqual(["high rings", "low rings"]);
  });

  it("goes on with a name of several words from its beginning", () => {
    expect(offered("event Mine\n  stage s 50 sandbag s|")).toEqual({ replaces: "sandbag s", labels: ["sandbag squat"] });
  });

  it("offers settings of an event, their choices, units and forms of rules", () => {
    expect(offered("event Mine\n  |").labels).toEqual(
      expect.arrayContaining(["cap", "handover", "score", "stage", "station", "window", "round", "rule", "standard"]),
    );
    expect(offered("event Mine\n  score |").labels).toEqual(["time", "reps"]);
    expect(offered("event Mine\n  cap 9 |").labels).toEqual(expect.arrayContaining(["min", "s"]));
    expect(offered("event Mine\n  rule hold|").labels).toEqual(["hold turn at most T", "hold share within P"]);
    expect(offered("event Mine\n  rule |").labels).toContain("hold turn at most T");
    expect(offered("movement m\n  asks s|").labels).toEqual(["squat"]);
  });

  it("spells names in a formula as a formula does", () => {
    expect(offered("let a = Two|").labels).toEqual(["Two_Ladders"]);
  });

  it("offers blocks at the start of a line, and nothing in a comment, a heading or a note", () => {
    expect(offered("pl|").labels).toEqual(["plan", "plan"]);
    for (const text of ["// pl|", "# pl|", "> pl|", "plan Mine for Breakwater // St|"]) expect(offered(text).labels).toEqual([]);
  });
});

describe("snippets", () => {
  it.each(snippets.map((snippet) => [snippet.word, snippet.says, snippet] as const))(
    "%s: %s reads as it stands",
    (_word, _says, snippet) => {
      expect(findingsOf(compileText(filled(snippet))).filter(({ rule }) => rule === "does-not-parse" || rule === "out-of-place")).toEqual(
        [],
      );
    },
  );
});

describe("templates", () => {
  it.each(templates.map(({ name }) => name))("%s: no error beside the demo, nothing of its names is taken", (name) => {
    const text = templateText(name, compile(lighthouse));
    const found = findingsOf(compile([...lighthouse, { path: "begun.rota", text }]));
    expect(
      found.filter(({ path, severity, rule }) => (path === "begun.rota" && severity === "error") || rule === "declared-twice"),
    ).toEqual([]);
  });

  it("a plan is for the notebook's own event by its own team", () => {
    const event = "team Pine\n  Ada  woman\n  Olu  man\n\nevent Tide\n  cap 6 min\n  working at most 1\n  stage 40 box jump\n";
    const text = templateText("plan", compileText(event));
    expect(text).toContain("plan First Plan for Tide\n");
    expect(
      findingsOf(
        compile([
          { path: "a.rota", text: event },
          { path: "b.rota", text },
        ]),
      ).filter(({ severity }) => severity === "error"),
    ).toEqual([]);
  });
});

describe("the first steps of a notebook", () => {
  const team = teamText("Pine", ["Ada", "Eva"], ["Olu", "Ben"]);
  it("lead from a team by an event and its tests to a plan", () => {
    const step = (text: string) => firstStep(compileText(text));
    expect(step("")).toEqual({ lacks: "team" });
    expect(step(team)).toEqual({ lacks: "event", taken: [] });
    const [kind] = eventKinds;
    if (!kind) throw new Error("no kinds");
    const event = eventText(kind, "Tide");
    const tests = step(`${team}\n${event}\n`);
    expect(tests).toMatchObject({ lacks: "tests", event: "Tide" });
    const table = tests?.lacks === "tests" ? tests.table : "";
    expect(findingsOf(compileText(`${team}\n${event}\n\n${table}`)).filter(({ severity }) => severity === "error")).toEqual([]);
    expect(step(`${team}\n${event}\n\n${table.replace("-", "30")}`)).toEqual({ lacks: "plan", event: "Tide" });
    expect(step(`${team}\n${event}\n\n${table}\nplan P for Tide\n  repeat\n    Ada 5\n`)).toBeNull();
  });

  it.each(eventKinds.map((kind) => [kind.name, kind] as const))(
    "an event where %s is read whole, and a team of four has a plan for it",
    (_name, kind) => {
      const compiled = compileText(`${team}\n${eventText(kind, "Tide")}\n`);
      expect(findingsOf(compiled).filter(({ severity }) => severity === "error")).toEqual([]);
      const { events, teams } = compiled.kept.world;
      const [event, own] = [events.get("Tide"), teams.get("Pine")];
      const plan = event && own && firstPlan(event, own, compiled);
      expect(
        findingsOf(compileText(`${team}\n${eventText(kind, "Tide")}\n\n${plan}`)).filter(({ severity }) => severity === "error"),
      ).toEqual([]);
      expect(plan).toContain("plan First Plan for Tide");
    },
  );
});

describe("search", () => {
  it("finds lines whatever their case, with the place of the words", () => {
    const { places, more } = found([{ path: "a.rota", text: "# Tide\n  two Tides\nnone" }], "tide");
    expect(more).toBe(false);
    expect(places.map(({ line, text, from, to, offset }) => [line, text.slice(from, to), offset])).toEqual([
      [1, "Tide", 2],
      [2, "Tide", 13],
    ]);
    expect(found([{ path: "a.rota", text: "x\n".repeat(200) }], "x")).toMatchObject({ more: true, places: { length: 100 } });
  });
});

describe("help", () => {
  it("has a sentence for every word that opens a line", () => {
    expect(headWords.filter((word) => !Object.hasOwn(wordHelp, word))).toEqual([]);
  });

  it("says what a name is and where it is declared; and what a word does", () => {
    const text = "plan Mine for Breakwater\n  stage squats\n    Ines 5\n";
    const notebook = notebookWith(text);
    const names = occurrencesIn(notebook);
    const documents = [...lighthouse, { path: "mine.rota", text }];
    const at = (word: string) => helpAt(names, documents, "mine.rota", text.indexOf(word) + 1);
    expect(at("Ines")).toMatchObject({
      title: "athlete Ines",
      text: expect.stringMatching(/^team\.rota, line \d+: Ines +woman\. In \d+ places\.$/),
    });
    expect(at("stage")).toMatchObject({ title: "stage", text: wordHelp.stage });
    const wrong = text.replace("Ines", "Inez");
    const misspelt = helpAt(
      occurrencesIn(notebookWith(wrong)),
      [{ path: "mine.rota", text: wrong }],
      "mine.rota",
      wrong.indexOf("Inez") + 1,
    );
    expect(misspelt?.text).toBe("Nothing declares it. First named in mine.rota, line 3: Inez 5. In 1 place.");
    const stage = nameAt(names, "mine.rota", text.indexOf("squats"));
    const declared = stage && declarationOf(names, stage);
    expect(declared && lighthouse.find(({ path }) => path === declared.path)?.text.slice(declared.span.from - 6)).toMatch(
      /^stage squats {2}150/,
    );
  });
});
