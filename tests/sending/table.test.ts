/** Tables from and to a spreadsheet; the reader and writer of comma- and tab-separated text is Papa Parse (RFC 4180). */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { csvOf, tableRowsOf } from "../../src/7-view/table-text.js";
import { abilityFrom, abilityRows } from "../../src/3-plan/ability-table.js";
import { format } from "../../src/3-plan/format.js";
import { compileText, findingsOf, lighthouse } from "../notebook.js";

const read = (text: string, athletes: readonly string[] = []) => abilityFrom(tableRowsOf(text), athletes);
const textOf = (text: string): string => {
  const found = read(text);
  if (!found.ok) throw new Error(found.reason);
  return found.text;
};

describe("a table that was pasted", () => {
  it.each([
    ["from a spreadsheet, tabs between", "\tAda\tOlu\nbox jump unbroken\t20\t24\nbox jump cycle\t2\t2.2\n"],
    ["with commas between and quotes", '"",Ada,Olu\n"box jump unbroken",20,24\n"box jump cycle","2","2.2"\n'],
    ["with semicolons and a decimal comma", ";Ada;Olu\nbox jump unbroken;20;24\nbox jump cycle;2,0;2,2\n"],
    ["with units in the cells", "\tAda\tOlu\nbox jump unbroken\t20 reps\t24 reps\nbox jump cycle\t2 s\t2.2 sec\n"],
    ["with a column of units", "\tAda\tOlu\tunit\nbox jump unbroken\t20\t24\treps\nbox jump cycle\t2\t2.2\ts\n"],
    ["with movement and measure apart", "movement\tmeasure\tAda\tOlu\nbox jump\tunbroken\t20\t24\nbox jump\tcycle\t2\t2.2\n"],
    ["with blank rows and blanks that do not break", "\t Ada \tOlu\n\nbox jump\u00a0unbroken\t20\t24\n\t\t\nbox jump cycle\t2\t2.2\n"],
  ])("%s is an ability block", (_, table) => {
    expect(textOf(table).replaceAll("2.0", "2")).toBe(
      "ability             Ada  Olu\n  box jump  unbroken   20   24  reps\n  box jump  cycle       2  2.2  s\n".replace(
        "ability             Ada",
        "ability               Ada",
      ),
    );
  });

  it("takes times as a clock shows them, what is not known, loads, and tests over a time", () => {
    const text = textOf("\tAda\tOlu\nstone hold\t1:22\t104\nbox jump in 5 min\t33\t\nsquat unbroken @ 30 kg\t12\tn/a\n");
    expect(text).toMatch(/stone\s+hold\s+1:22\s+104\s+s\n/);
    expect(text).toMatch(/box jump\s+in 5 min\s+33\s+-\s+reps\n/);
    expect(text).toMatch(/squat\s+unbroken @ 30 kg\s+12\s+-\s+reps\n/);
    const compiled = compileText(`team Pine\n  Ada woman\n  Olu man\n${text}`);
    expect(findingsOf(compiled).filter(({ severity }) => severity === "error")).toEqual([]);
    expect(compiled.kept.world.abilities.get("Ada")?.get("stone")?.measures.get("hold")?.value).toBe(82);
  });

  it.each([
    ["\tAda\tOlu\n", "There is no row under the names of the athletes."],
    ["\tAda\nbox jump\t20\n", "Row 2: “box jump” says not what was measured"],
    ["\tAda\nbox jump unbroken\ttwenty\n", "Row 2: “twenty” is no number"],
    ["\tAda\tunit\nbox jump unbroken\t20\tmiles\n", "Row 2: “miles” is no unit here"],
  ])("that is none says why: %j", (table, reason) => {
    const found = read(table);
    expect(found.ok ? found.text : found.reason).toContain(reason);
  });

  it("does what a formula does in a spreadsheet: nothing", () => {
    const found = read("\t=cmd|'/c calc'!A1\nbox jump unbroken\t20\n");
    expect(found.ok ? findingsOf(compileText(found.text)).length : 0).toBeGreaterThanOrEqual(0);
    expect(read("\tAda\nbox jump unbroken\t=1+1\n").ok).toBe(false);
  });
});

describe("comma-separated text", () => {
  it("quotes what RFC 4180 says, and no cell of it is a formula", () => {
    expect(
      csvOf([
        ["a,b", 'say "it"', "two\nlines"],
        ["=1+1", "@x", "-", "-5", "+1"],
      ]),
    ).toBe(`"a,b","say ""it""","two\nlines"\r\n"'=1+1","'@x",-,-5,"'+1"\r\n`);
  });
});

describe("an ability block as a table", () => {
  const team = lighthouse.find(({ path }) => path === "team.rota")?.text ?? "";
  const block = team.slice(team.indexOf("ability"));

  it("comes back as it was", () => {
    const back = abilityFrom(abilityRows(block), []);
    const plain = (text: string): string =>
      format(text)
        .replace(/^ability on \S+/, "ability")
        .replace(/ +/g, " ")
        .trim();
    expect(back.ok && plain(back.text)).toBe(plain(block));
  });

  it("is read by a spreadsheet program of Debian's, where one is there, cell by cell", (context) => {
    try {
      execFileSync("ssconvert", ["--version"], { stdio: "ignore" });
    } catch {
      return context.skip();
    }
    const folder = mkdtempSync(join(tmpdir(), "rotaline-table-"));
    const rows = abilityRows(block);
    writeFileSync(join(folder, "a.csv"), csvOf(rows));
    // To its own format and back: what it understood, not what it passed through.
    execFileSync("ssconvert", [join(folder, "a.csv"), join(folder, "b.gnumeric")], { stdio: "ignore" });
    execFileSync("ssconvert", [join(folder, "b.gnumeric"), join(folder, "c.csv")], { stdio: "ignore" });
    const numbers = (all: readonly (readonly string[])[]): unknown =>
      all.map((row) => row.map((cell) => (/^\d+(\.\d+)?$/.test(cell) ? Number(cell) : cell)));
    expect(numbers(tableRowsOf(readFileSync(join(folder, "c.csv"), "utf8")))).toEqual(numbers(rows));
  });
});
