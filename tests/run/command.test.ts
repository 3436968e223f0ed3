/** The built command, as a process. */
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Ajv from "ajv";
import { describe, expect, it } from "vitest";
import { lighthouse, root } from "../notebook.js";

function rotaline(...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, "dist/rotaline.js"), ...args], {
    cwd: root,
    encoding: "utf8",
  });
  return { status, stdout, stderr };
}

function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), "rotaline-test-"));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

const good =
  "team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  box jump unbroken 20 24 reps\n  box jump cycle 2 2 s\n  box jump fade 0 0 %\nevent Sprint\n  cap 5 min\n  handover 3 s\n  stage 40 box jump\nplan Simple for Sprint\n  repeat\n    Ada 5\n    Olu 5\nassume set-up 0 s\n";

describe("rotaline suggest", () => {
  it.each(["14:00:00:00", "14:75", "-3", "fast", "1e3"])("takes no score such as %s for a target", (target) => {
    const { status, stderr } = rotaline("suggest", "Breakwater", "notebooks/lighthouse", `--target=${target}`, "--steps", "20");
    expect(status).toBe(2);
    expect(stderr).toContain(`“${target}” is no score`);
  });
});

describe("rotaline compare", () => {
  it("says how often one plan beats the other on the same days, and what differs by stage and athlete", () => {
    const { status, stdout } = rotaline("compare", "Steady", "Bold", "--in", "notebooks/lighthouse");
    expect(status).toBe(0);
    const rows = new Map(
      stdout.split("\n").map((line) => [
        line.slice(0, 30).trim(),
        line
          .slice(30)
          .trim()
          .split(/\s{2,}/),
      ]),
    );
    const [never, always] = [rows.get("beats Steady")?.at(-1), rows.get("beats Bold")?.at(0)].map((cell) =>
      Number(/\d+/.exec(cell ?? "")?.[0]),
    );
    expect((never ?? 0) + (always ?? 0)).toBe(100);
    for (const row of ["on paper", "the middle day", "squats: time, reps", "logs: time, reps", "rows: time, reps"])
      expect(stdout).toMatch(new RegExp(`^${row} .*\\d:\\d\\d`, "m"));
    expect(stdout).toMatch(/^Ines: reps, held, rested +\d+, \d:\d\d, \d:\d\d/m);
    for (const line of stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("prints the same as JSON, to the byte when asked again", () => {
    const once = rotaline("compare", "Split", "Matched", "--in", "notebooks/lighthouse", "--format", "json").stdout;
    expect(JSON.parse(once).beats[0][1] + JSON.parse(once).beats[1][0]).toBeCloseTo(1, 9);
    expect(rotaline("compare", "Split", "Matched", "--in", "notebooks/lighthouse", "--format", "json").stdout).toBe(once);
  });

  it("does not compare a time with reps, nor what is not there", () => {
    expect(rotaline("compare", "Steady", "Ladder", "--in", "notebooks/lighthouse")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("neither beats the other"),
    });
    expect(rotaline("compare", "Steady", "Bald", "--in", "notebooks/lighthouse")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("Bold"),
    });
  });
});

describe("rotaline check", () => {
  it("says of the demo notebook what is kept beside it", async () => {
    const { status, stdout } = rotaline("check", "notebooks/lighthouse");
    await expect(stdout).toMatchFileSnapshot(join(root, "notebooks/lighthouse.checked.txt"));
    expect(status).toBe(1);
  });

  it("accepts the demo documents as they stand: Steady has no finding, Bold one of each kind, every other document at most one; eight in all", () => {
    const report = JSON.parse(rotaline("check", "notebooks/lighthouse", "--format", "json").stdout);
    const found = report.documents.flatMap(
      ({ path, findings }: { path: string; findings: readonly { severity: string; rule: string; line: number }[] }) =>
        findings.map((finding) => ({ path, ...finding })),
    );
    const [plans, others] = [
      found.filter(({ path }: { path: string }) => path.endsWith("breakwater.rota")),
      found.filter(({ path }: { path: string }) => !path.endsWith("breakwater.rota")),
    ];
    const bold =
      lighthouse
        .find(({ path }) => path === "breakwater.rota")
        ?.text.split("\n")
        .findIndex((line) => line.startsWith("plan Bold")) ?? 0;
    expect(plans.every(({ line }: { line: number }) => line > bold)).toBe(true);
    expect(plans.map(({ rule }: { rule: string }) => rule).sort()).toEqual([
      "hold-drops",
      "hold-turn-missed",
      "hold-uncovered",
      "runs-over-cap",
      "set-too-long",
      "two-places",
      "uneven-share",
    ]);
    expect(new Set(others.map(({ path }: { path: string }) => path)).size).toBe(others.length);
    expect(found).toHaveLength(8);
    expect(report.plans.map(({ name }: { name: string }) => name).sort()).toEqual([
      "Bold",
      "Even",
      "Ladder",
      "Matched",
      "Simple",
      "Split",
      "Steady",
    ]);
  });

  it("a start says what each plan comes to and where the notebook is, on one screen", async () => {
    const open = spawn(process.execPath, [join(root, "dist/rotaline.js"), "open", "notebooks/lighthouse", "--port", "0"], { cwd: root });
    let said = "";
    await new Promise<void>((done) =>
      open.stdout.on("data", (part: Buffer) => {
        said += part.toString();
        if (said.includes("stop with Ctrl+C")) done();
      }),
    );
    open.kill();
    expect(said.trimEnd().split("\n").length).toBeLessThanOrEqual(24);
    expect(said).toMatch(/^Plans\n {2}Steady for Breakwater/);
    expect(said).toContain("4 errors, 3 warnings, 1 note\n");
    expect(said).toMatch(/The notebook is open at http:\/\/127\.0\.0\.1:\d+\//);
  });

  it("suggestions come as fields too: what each comes to, why, and its text", () => {
    const { status, stdout } = rotaline("suggest", "Sprint", "notebooks/lighthouse", "--steps", "200", "--format", "json");
    expect(status).toBe(0);
    const told = JSON.parse(stdout);
    expect(told).toMatchObject({ sound: true, nothing: null });
    expect(told.proposals[0]).toMatchObject({ sound: true, text: expect.stringMatching(/^plan .+ for Sprint\n/) });
    expect(rotaline("suggest", "Sprint", "notebooks/lighthouse", "--format", "xml").status).toBe(2);
  });

  it("learn and ask say what logs teach and what to test, with a second try", () => {
    const learnt = rotaline("learn", "notebooks/lighthouse");
    expect(learnt.status).toBe(0);
    expect(learnt.stdout).toMatch(/^\/\/ .+\nability on 2026-03-23 /s);
    expect(rotaline("ask", "Ladder", "notebooks/lighthouse").stdout).toMatch(
      /^Test \w+'s best unbroken set of ring dip once more: eight days of ten would lie within \d+ reps, not \d+\.\n/,
    );
    expect(rotaline("week", "notebooks/lighthouse", "--again").stdout).toMatch(
      /The second try of Two Ladders with Ladder betters the first on \d+ % of days/,
    );
  });

  it("prints one JSON object of the published shape", () => {
    const folder = folderWith({ "a.rota": good.replace("    Olu 5", "    Olaf 5") });
    const { status, stdout } = rotaline("check", folder, "--format", "json");
    const report = JSON.parse(stdout);
    expect(status).toBe(1);
    expect(Object.keys(report)).toEqual(["version", "documents", "plans", "weeks"]);
    expect(report.version).toBe(1);
    expect(report.documents[0].findings.find(({ rule }: { rule: string }) => rule === "unknown-name")).toEqual({
      rule: "unknown-name",
      severity: "error",
      line: 15,
      column: 5,
      endLine: 15,
      endColumn: 9,
      message: "There is no athlete or pair called “Olaf” here. Did you mean Olu?",
      why: "A misspelt name would leave someone out of the plan without a word.",
      fixes: [{ title: "write Olu", edits: [{ line: 15, column: 5, endLine: 15, endColumn: 9, text: "Olu" }] }],
    });
  });

  it("gives the plan's numbers: 8 sets of 10 s and 7 handovers of 3 s", () => {
    const folder = folderWith({ "a.rota": good });
    const { status, stdout } = rotaline("check", join(folder, "a.rota"), "--format", "json");
    const {
      documents,
      plans: [plan],
    } = JSON.parse(stdout);
    expect(status).toBe(0);
    expect(plan.score).toEqual({
      kind: "time",
      value: expect.closeTo(101, 6),
      unit: "s",
      finished: true,
      p10: expect.any(Number),
      p50: expect.any(Number),
      p90: expect.any(Number),
    });
    // Eight of ten days lie around the expected one: 40 reps of a set's pace (3 %), the day's form (2 %), handovers (20 %).
    expect(plan.score.p10).toBeLessThan(101);
    expect(plan.score.p90).toBeGreaterThan(101);
    expect(plan).toMatchObject({
      name: "Simple",
      event: "Sprint",
      line: 12,
      stages: [{ name: "box jump", start: 0, end: expect.closeTo(101, 6), reps: 40 }],
    });
    expect(plan.athletes).toEqual(
      ["Ada", "Olu"].map((name) => ({ name, reps: 20, work: expect.closeTo(40, 6), hold: 0, rest: expect.closeTo(61, 6), share: 0.5 })),
    );
    expect(plan.segments[0]).toEqual({ athlete: "Ada", activity: "work", start: 0, end: 10, line: 14, movement: "box jump", reps: 5 });
    expect(documents[0].lines.find(({ line }: { line: number }) => line === 14)).toEqual({
      line: 14,
      shown: expect.stringMatching(/^0:00–0:10 · 5 of 40 · \d+ % left · ×4, least \d+ %$/),
      values: expect.objectContaining({ start: 0, end: 10, reps: 5 }),
    });
  });

  it("gives a week's sessions in its zone", () => {
    const { weeks } = JSON.parse(rotaline("check", "notebooks/lighthouse", "--format", "json").stdout);
    expect(weeks[0].name).toBe("Lighthouse Three");
    expect(weeks[0].sessions[0]).toEqual({
      event: "Two Ladders",
      plan: "Ladder",
      start: "2026-03-20T18:00:00-03:00",
      line: 8,
      readiness: { grip: 1, pull: 1, push: 1, squat: 1, hinge: 1, trunk: 1, engine: 1, hands: 1 },
      score: expect.any(Number),
    });
    // Two days after the dips, half of 36 h and a third of it later, the push is not all back.
    expect(weeks[0].sessions[2].readiness.push).toBeGreaterThan(0.9);
    expect(weeks[0].sessions[2].readiness.push).toBeLessThan(1);
  });

  it("takes the documents that one uses", () => {
    const [team = "", plan = ""] = good.split(/(?=event)/);
    const folder = folderWith({ "team.rota": team, "plan.rota": `use "team.rota"\n${plan}` });
    expect(rotaline("check", join(folder, "plan.rota")).stdout).toContain("Simple for Sprint  1:41");
    expect(rotaline("check", join(folder, "plan.rota")).status).toBe(0);
  });

  it("shows line, caret, reason and fix, without colours in a pipe", () => {
    const folder = folderWith({ "a.rota": good.replace("cap 5 min", "cap 5 kg") });
    const { stdout } = rotaline("check", folder);
    expect(stdout).toContain(
      `error: “kg” does not fit here. Write a time such as 40 s or 2:30.\n  ╷ ${join(folder, "a.rota")}:9:7 unit-mismatch\n9 │   cap 5 kg\n  ╵       ^^^^\n`,
    );
    expect(stdout).toMatch(/^Why\n +unit-mismatch /m);
    expect(stdout).not.toContain("\u001b[");
  });
});

describe("rotaline check --format sarif", () => {
  // The schema of SARIF 2.1.0 (OASIS), as a package of test matchers ships it.
  const schema = JSON.parse(readFileSync(join(root, "node_modules/@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"), "utf8"));
  const ajv = new Ajv({ allErrors: true, schemaId: "auto", unknownFormats: "ignore" });
  ajv.addMetaSchema(JSON.parse(readFileSync(join(root, "node_modules/ajv/lib/refs/json-schema-draft-04.json"), "utf8")));
  const conforms = ajv.compile(schema);

  it("conforms to the standard's schema, for the demo notebook and for the output of a broken plan", () => {
    for (const text of [good, good.replace("Olu 5", "Olaf 5").replace("cap 5 min", "cap 5 kg")]) {
      const log = JSON.parse(rotaline("check", folderWith({ "a b.rota": text }), "--format", "sarif").stdout);
      expect([conforms(log), conforms.errors]).toEqual([true, null]);
    }
    const demo = JSON.parse(rotaline("check", "notebooks/lighthouse", "--format", "sarif").stdout);
    expect([conforms(demo), conforms.errors]).toEqual([true, null]);
    expect(conforms({ ...demo, runs: [{}] })).toBe(false);
  });

  it("has what the standard requires, and offers each fix", () => {
    const folder = folderWith({ "a b.rota": good.replace("    Olu 5", "    Olaf 5") });
    const { status, stdout } = rotaline("check", folder, "--format", "sarif");
    const log = JSON.parse(stdout);
    expect(status).toBe(1);
    expect(log.version).toBe("2.1.0");
    const [run] = log.runs;
    expect(typeof run.tool.driver.name).toBe("string");
    expect(run.columnKind).toBe("utf16CodeUnits");
    for (const rule of run.tool.driver.rules) expect([typeof rule.id, typeof rule.shortDescription.text]).toEqual(["string", "string"]);
    for (const result of run.results) {
      expect(run.tool.driver.rules[result.ruleIndex].id).toBe(result.ruleId);
      expect(["none", "note", "warning", "error"]).toContain(result.level);
      expect(result.message.text.length).toBeGreaterThan(10);
      const [
        {
          physicalLocation: { artifactLocation, region },
        },
      ] = result.locations;
      expect(artifactLocation.uri).toBe(`file://${folder}/a%20b.rota`);
      expect(region.startLine).toBeGreaterThanOrEqual(1);
      expect(region.endLine > region.startLine || region.endColumn >= region.startColumn).toBe(true);
    }
    const unknown = run.results.find(({ ruleId }: { ruleId: string }) => ruleId === "unknown-name");
    expect(unknown.fixes).toEqual([
      {
        description: { text: "write Olu" },
        artifactChanges: [
          {
            artifactLocation: { uri: `file://${folder}/a%20b.rota` },
            replacements: [
              { deletedRegion: { startLine: 15, startColumn: 5, endLine: 15, endColumn: 9 }, insertedContent: { text: "Olu" } },
            ],
          },
        ],
      },
    ]);
  });
});

describe("rotaline check --fix", () => {
  it("writes what settles a finding, and leaves a choice to the coach", () => {
    const folder = folderWith({ "a.rota": good.replace("    Olu 5", "    Oluu 5\n    Ada + Olu 2") });
    expect(rotaline("check", folder, "--fix").stderr).toBe("1 fix applied\n");
    const text = readFileSync(join(folder, "a.rota"), "utf8");
    expect(text).toContain("    Olu 5\n    Ada + Olu 2\n");
  });
});

describe("rotaline explain", () => {
  it("explains a rule, lists them all, and offers near ones", () => {
    expect(rotaline("explain", "say-how").stdout).toContain("Ten each is twice the work of ten in all");
    expect(rotaline("explain").stdout.split("\n").length).toBeGreaterThan(40);
    expect(rotaline("explain", "say-hwo")).toMatchObject({ status: 2, stderr: expect.stringContaining("Near: say-how.") });
  });
});

describe("rotaline show", () => {
  it("draws a lane for each athlete", () => {
    const { status, stdout } = rotaline("show", "Steady", "notebooks/lighthouse", "--width", "40");
    expect(status).toBe(0);
    const lanes = stdout.split("\n").filter((line) => /^(Ines|Marta|Bram|Tariq) /.test(line));
    expect(lanes).toHaveLength(4);
    for (const lane of lanes) expect(lane.slice(7)).toMatch(/^[█≡·|-]{40}$/);
  });
});

describe("rotaline format", () => {
  it("writes the house style, and --check only tells", () => {
    const folder = folderWith({ "a.rota": "let  x=1+2\n" });
    const file = join(folder, "a.rota");
    expect(rotaline("format", file, "--check")).toMatchObject({ status: 1, stdout: expect.stringContaining("would change") });
    expect(readFileSync(file, "utf8")).toBe("let  x=1+2\n");
    expect(rotaline("format", file).status).toBe(0);
    expect(readFileSync(file, "utf8")).toBe("let x = 1 + 2\n");
    expect(rotaline("format", file, "--check").status).toBe(0);
  });
});

describe("what cannot be done", () => {
  it.each([
    [["check", "nowhere"], "There is no file or folder “nowhere”."],
    [["chekc"], "There is no command “chekc”. Did you mean check?"],
    [["show"], "Which plan?"],
    [["show", "Stedy", "notebooks/lighthouse"], "There is no plan “Stedy”. Plans here: Steady."],
    [["check", "--format", "xml"], "There is no format “xml”."],
    [["format"], "Which documents?"],
    [["check", "--colour"], "--colour"],
  ])("%s ends with status 2 and a reason", (args, reason) => {
    const { status, stderr } = rotaline(...args);
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
  });

  it.each(["check", "show", "format", "explain", "open"])("%s --help gives examples", (name) => {
    const { status, stdout } = rotaline(name, "--help");
    expect(status).toBe(0);
    expect(stdout).toMatch(new RegExp(`\n  rotaline ${name}`));
  });
});

describe("rotaline week", () => {
  it("says what each day comes to, draws what is back, and ends with the cautions", () => {
    const { status, stdout } = rotaline("week", "notebooks/lighthouse");
    expect(status).toBe(0);
    expect(stdout).toMatch(/2026-03-23 18:00 {2}Breakwater .*\d\d:\d\d, fresh \d\d:\d\d · \w+'s \w+ \d\d % back/);
    expect(stdout).toMatch(/^push {4,}[▁-█ ]+$/m);
    expect(stdout).toContain("zone data:");
    expect(stdout).toContain("medical advice come first");
  });

  it("--order gives orders as text that the language takes, the best first, with reasons; as JSON too", () => {
    const { status, stdout } = rotaline("week", "Lighthouse Three", "notebooks/lighthouse", "--order");
    expect(status).toBe(0);
    expect(stdout).toMatch(/^\/\/ least given away: [\d.]+ % given away in all\n(\/\/ .*\n)+week Lighthouse Three\n/);
    const ideas: unknown = JSON.parse(rotaline("week", "notebooks/lighthouse", "--order", "--format", "json").stdout);
    expect(ideas).toMatchObject({ done: true, faults: [] });
  });

  it("--calendar writes a file, - to standard output", () => {
    const folder = folderWith({});
    expect(rotaline("week", "notebooks/lighthouse", "--calendar", join(folder, "week.ics")).status).toBe(0);
    expect(readFileSync(join(folder, "week.ics"), "utf8")).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(rotaline("week", "notebooks/lighthouse", "--calendar", "-").stdout).toMatch(/END:VCALENDAR\r\n$/);
  });

  it("status 1 where a limit is broken or no order keeps them, 2 where there is no such week", () => {
    const crowded = folderWith({
      "w.rota": `${good}week One\n  at most 1 event a day\n  2026-03-20 10:00 Sprint plan Simple\n  2026-03-20 18:00 Sprint again\n`,
    });
    expect(rotaline("week", `${crowded}/`).status).toBe(1);
    const never = rotaline("week", `${crowded}/`, "--order");
    expect([never.status, never.stdout]).toEqual([1, expect.stringContaining("No order keeps all of the week's limits")]);
    expect(rotaline("week", "Nowhere", "notebooks/lighthouse")).toMatchObject({
      status: 2,
      stderr: "rotaline: There is no week “Nowhere”. Weeks here: Lighthouse Three.\n",
    });
  });
});

describe("rotaline cards", () => {
  it("prints each athlete's card and the wall's sheet as text, Markdown or one page", () => {
    const text = rotaline("cards", "Steady", "notebooks/lighthouse");
    expect(text.status).toBe(0);
    expect(text.stdout).toMatch(/^Ines\nSteady for Breakwater, \d\d:\d\d on paper; \d things to remember\n/);
    expect(text.stdout).toMatch(/^when {3}who +Ines +Marta +Bram +Tariq$/m);
    expect(rotaline("cards", "Steady", "notebooks/lighthouse", "--markdown", "--for", "Marta").stdout).toMatch(/^## Marta\n/);
    expect(rotaline("cards", "Steady", "notebooks/lighthouse", "--html").stdout).toMatch(/^<!doctype html>/);
    expect(rotaline("cards", "Steady", "notebooks/lighthouse", "--for", "Nobody")).toMatchObject({
      status: 2,
      stderr: "rotaline: Nobody has nothing to do in Steady. Athletes there: Ines, Marta, Bram, Tariq.\n",
    });
  });
});
