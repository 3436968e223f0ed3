/** The built command among files and folders as they are: bad bytes, links, pipes, permissions, names, other folders. */
import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { root } from "../notebook.js";

const command = join(root, "dist/rotaline.js");

interface Run {
  readonly cwd?: string;
  readonly input?: string;
}

function rotaline(args: readonly string[], { cwd = root, input = "" }: Run = {}) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], { cwd, input, encoding: "utf8" });
  return { status, stdout, stderr, all: stdout + stderr };
}

/** A folder with files by path; bytes as they are. */
function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), "rotaline-files-"));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}

const team = (first: string, second: string): string =>
  `team Pier\n  ${first} woman\n  ${second} man\nability ${first} ${second}\n  box jump unbroken 20 24 reps\n  box jump cycle 2 2 s\n`;
const event = "event Sprint\n  cap 5 min\n  stage 40 box jump\n";
const plan = (name: string, who: string, other: string): string => `plan ${name} for Sprint\n  repeat\n    ${who} 5\n    ${other} 5\n`;
const good = team("Ada", "Olu") + event + plan("Simple", "Ada", "Olu");

describe("two folders with a document of one name", () => {
  const files = {
    "A/plan.rota": team("Ada", "Olu") + event.replace("Sprint", "First") + "plan One for First\n  Ada 5\n  Olaf   5\n",
    "B/plan.rota": team("Eva", "Ian").replace("Pier", "Quay") + event.replace("Sprint", "Second") + "plan Two for Second\n  Eva   5\n",
  };

  it("are two documents: the first one's errors are said, and count", () => {
    const { status, stdout } = rotaline(["check", "A", "B"], { cwd: folderWith(files) });
    expect([status, stdout]).toEqual([1, expect.stringMatching(/A\/plan\.rota[\s\S]*Olaf/)]);
  });

  it("each keep their own text when fixes are written", () => {
    const folder = folderWith(files);
    rotaline(["check", "--fix", "A", "B"], { cwd: folder });
    rotaline(["format", "A", "B"], { cwd: folder });
    expect(readFileSync(join(folder, "A/plan.rota"), "utf8")).toMatch(/plan One for First\n {2}Ada 5\n {2}Ol\w+ 5\n/);
    expect(readFileSync(join(folder, "B/plan.rota"), "utf8")).toContain("plan Two for Second\n  Eva 5\n");
  });
});

describe("what is no text of a plan", () => {
  const latin = Uint8Array.from([...Buffer.from("team Caf"), 0xe9, 0x0a]);
  const wide = Uint8Array.from(Buffer.from("\ufeffteam Pier\n", "utf16le"));
  const picture = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]);

  it.each([
    ["Latin-1", latin],
    ["UTF-16", wide],
    ["a picture", picture],
  ])("is told and never rewritten: %s", (_name, bytes) => {
    const folder = folderWith({ "a.rota": bytes, "b.rota": good });
    for (const args of [
      ["format", "a.rota"],
      ["format", "."],
      ["check", "--fix", "a.rota"],
      ["check", "--fix", "."],
    ]) {
      const { all } = rotaline(args, { cwd: folder });
      expect([args, all]).toEqual([args, expect.stringMatching(/a\.rota is left out: it is (?:not UTF-8|no text)/)]);
      expect(Uint8Array.from(readFileSync(join(folder, "a.rota")))).toEqual(Uint8Array.from(bytes));
    }
  });

  it("is not formatted by another ending", () => {
    const folder = folderWith({ "notes.txt": "team   Pier\n" });
    expect(rotaline(["format", "notes.txt"], { cwd: folder })).toMatchObject({ status: 2, stderr: expect.stringContaining("only .rota") });
    expect(readFileSync(join(folder, "notes.txt"), "utf8")).toBe("team   Pier\n");
  });
});

describe("a document that is written", () => {
  it("keeps its mode, and leaves no draft behind", () => {
    const folder = folderWith({ "a.rota": "team   Pier\n" });
    chmodSync(join(folder, "a.rota"), 0o600);
    expect(rotaline(["format", "."], { cwd: folder })).toMatchObject({ status: 0, stdout: "formatted a.rota\n" });
    expect([statSync(join(folder, "a.rota")).mode & 0o777, readdirSync(folder)]).toEqual([0o600, ["a.rota"]]);
  });

  it("that is read-only is refused", () => {
    const folder = folderWith({ "a.rota": "team   Pier\n" });
    chmodSync(join(folder, "a.rota"), 0o444);
    expect(rotaline(["format", "."], { cwd: folder }).status).not.toBe(0);
    expect(readFileSync(join(folder, "a.rota"), "utf8")).toBe("team   Pier\n");
  });
});

describe("a use line", () => {
  it("reaches no further than .rota files in the notebook's folder: nothing else is read, nor printed", () => {
    const folder = folderWith({
      "notebook/a.rota": `use "/proc/self/environ"\nuse "/etc/passwd"\nuse "../outside.rota"\nuse "secret.txt"\nuse "link.rota"\n${good}`,
      "notebook/secret.txt": "team Treasure\n",
      "outside.rota": "team Elsewhere\n  secretive\n",
    });
    symlinkSync(join(folder, "outside.rota"), join(folder, "notebook/link.rota"));
    for (const args of [
      ["check", "."],
      ["check", "a.rota", "--full"],
      ["check", ".", "--format", "json"],
    ]) {
      const { all, stderr } = rotaline(args, { cwd: join(folder, "notebook") });
      expect(all).not.toMatch(/Treasure|Elsewhere|secretive|root:|PATH=/);
      expect(stderr).toContain("outside the notebook's folder: it is not read");
      expect(stderr).toContain("no .rota file: it is not read");
    }
  });
});

describe("a folder with bad things in it", () => {
  it("is checked for the rest of it, and each is named", () => {
    const folder = folderWith({ "a.rota": good, "deep.rota": `let x = ${"(".repeat(3_000)}1${")".repeat(3_000)}\n` });
    spawnSync("mkfifo", [join(folder, "pipe.rota")]);
    symlinkSync(join(folder, "a.rota"), join(folder, "link.rota"));
    const { stdout, stderr } = rotaline(["check", "."], { cwd: folder });
    expect(stdout).toContain("Simple for Sprint");
    expect(stderr).toMatch(/link\.rota is left out: it is a link[\s\S]*pipe\.rota is left out/);
  });

  it("says of a line of megabytes little, and of a file over four megabytes that it is one", () => {
    const folder = folderWith({ "a.rota": `let x = ${"( ".repeat(950_000)}\n`, "b.rota": "// x\n".repeat(900_000) });
    const { stdout, stderr } = rotaline(["check", "."], { cwd: folder });
    expect(stdout.length).toBeLessThan(5_000);
    expect(stderr).toContain("b.rota is left out: it is larger than four megabytes");
  });
});

describe("line ends and marks", () => {
  it("a carriage return alone ends a line", () => {
    expect(rotaline(["check", "-"], { input: good.replaceAll("\n", "\r") }).stdout).toContain("Simple for Sprint");
  });

  it("a byte order mark is no column", () => {
    const found = (input: string): unknown => {
      const { documents } = JSON.parse(rotaline(["check", "-", "--format", "json"], { input }).stdout);
      return documents[0].findings.map(({ line, column }: { line: number; column: number }) => [line, column]);
    };
    expect(found("\ufeffxx yy\n")).toEqual(found("xx yy\n"));
  });
});

describe("the terminal", () => {
  it("gets no control character from a file's name or a broken line, whatever is asked", () => {
    const bad = "x\u009b31m\u001b]0;t\u0007.rota";
    const folder = folderWith({ [bad]: `${good}  \u001b]52;c;aGk=\u0007 \u009b2J\nlog Simple on 2026-03-20\n   finish   3:00\n` });
    for (const args of [
      ["check", "."],
      ["check", ".", "--full"],
      ["format", ".", "--check"],
      ["format", "."],
      ["show", "Simple"],
      ["compare", "Simple", "Simple"],
      ["suggest", "Sprint", "--steps", "1"],
      ["ask"],
      ["learn"],
      ["table", "Simple"],
      ["cards", "Simple"],
      ["week"],
      ["explain", "\u001b]0;t\u0007"],
    ]) {
      const { all } = rotaline(args, { cwd: folder });
      expect([args, /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.exec(all)?.[0]]).toEqual([args, undefined]);
    }
  });

  it("gets no line that a file's name makes up", () => {
    const folder = folderWith({ "ok\nteam FAKE  safe.rota": `${good}  xx yy\n` });
    expect(rotaline(["check", "."], { cwd: folder }).all).toMatch(/ok\ufffdteam FAKE {2}safe\.rota/);
  });

  it("that stops listening, or is full, gets no stack trace", () => {
    const folder = folderWith({ "a.rota": good.repeat(1) + "xx yy\n".repeat(3_000) });
    const cut = spawnSync("sh", ["-c", `"${process.execPath}" "${command}" check . --full | head -1`], { cwd: folder, encoding: "utf8" });
    expect(cut.stderr).toBe("");
    const full = spawnSync("sh", ["-c", `"${process.execPath}" "${command}" check . > /dev/full`], { cwd: folder, encoding: "utf8" });
    expect([full.status, full.stderr.trim().split("\n").length, full.stderr]).toEqual([2, 1, expect.not.stringMatching(/\bat /)]);
  });
});

describe("help and numbers", () => {
  it("--fix has nothing to write where the text came in by standard input", () => {
    const { status, all } = rotaline(["check", "--fix", "-"], { input: good });
    expect([status, all]).toEqual([2, expect.stringContaining("has no file to be written to")]);
  });

  it("help and --version are answered", () => {
    for (const args of [["help"], ["--help"], ["--version"]]) expect([args, rotaline(args).status]).toEqual([args, 0]);
  });

  it("one of a thing is one", () => {
    const alone = team("Ada", "Olu").replace("  Olu man\n", "") + event + "plan P for Sprint\n  Ada 5\n  Adda 5\n";
    const { stdout } = rotaline(["check", "-"], { input: alone });
    expect(stdout).toMatch(/1 document, 1 plan/);
    expect(stdout).not.toMatch(/\b1 (?:documents|plans|errors|warnings|women|men|reps)\b|\b1 are\b/);
  });
});

describe("where one stands", () => {
  it("paths in reports are from there", () => {
    const folder = folderWith({ "A/a.rota": good, "x.rota": `${good}xx yy\n` });
    const cwd = join(folder, "A");
    expect(JSON.parse(rotaline(["check", "../x.rota", "--format", "json"], { cwd }).stdout).documents[0].path).toMatch(
      /(^\.\.|\/)x\.rota$/,
    );
    const inside = JSON.parse(rotaline(["check", "A", "--format", "json"], { cwd: folder }).stdout);
    expect(inside.documents[0].path).toBe("A/a.rota");
  });

  it("a path behind suggest is the notebook that is read, whatever lies here", () => {
    const folder = folderWith({ "here/a.rota": good, "there/a.rota": team("Eva", "Ian") + event });
    const { stdout } = rotaline(["suggest", "Sprint", "../there", "--steps", "1"], { cwd: join(folder, "here") });
    expect(stdout).toMatch(/\bEva\b[\s\S]*\bIan\b/);
    expect(stdout).not.toMatch(/\bAda\b|\bOlu\b/);
  });

  it("suggest takes the team that has the tests", () => {
    const cwd = folderWith({ "a.rota": "team Aft\n  Gus man\n  Ivy woman\n", "z.rota": team("Eva", "Ian") + event });
    const { stdout } = rotaline(["suggest", "Sprint", "--steps", "1"], { cwd });
    expect(stdout).toMatch(/\bEva\b/);
    expect(stdout).not.toMatch(/\bGus\b/);
  });
});

describe("what cannot be suggested is said", () => {
  it("a target of the wrong kind", () => {
    const cwd = folderWith({ "a.rota": good });
    expect(rotaline(["suggest", "Sprint", "--target", "136"], { cwd })).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("time"),
    });
  });

  it("an event with a line that is not read", () => {
    const cwd = folderWith({ "a.rota": good.replace("  cap 5 min\n", "  cap five minutes\n") });
    expect(rotaline(["suggest", "Sprint"], { cwd })).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/of Sprint is wrong.*five minutes/),
    });
  });

  it("an event without a stage, and one that leaves nobody to work", () => {
    const none = folderWith({ "a.rota": `${team("Ada", "Olu")}event Bare\n  cap 5 min\n` });
    expect(rotaline(["suggest", "Bare"], { cwd: none })).toMatchObject({ status: 2, stderr: expect.stringMatching(/stage/) });
    const held = folderWith({
      "a.rota": `${team("Ada", "Olu")}  stone hold 60 60 s\nevent Held\n  cap 5 min\n  stage 20 box jump while 2 hold stone\n`,
    });
    const { status, all } = rotaline(["suggest", "Held"], { cwd: held });
    expect([status, all]).toEqual([expect.any(Number), expect.stringMatching(/nobody|hold/)]);
    expect(status).toBeGreaterThan(0);
  });
});

describe("scores in JSON", () => {
  it("an unfinished plan's value and percentiles are its cap; one that is done on most days has a tenth day", () => {
    const score = (input: string): Record<string, unknown> =>
      JSON.parse(rotaline(["check", "-", "--format", "json"], { input }).stdout).plans[0].score;
    expect(score(good.replace("cap 5 min", "cap 60 s").replace("40 box", "200 box"))).toMatchObject({
      finished: false,
      value: 60,
      p10: 60,
      p90: 60,
    });
    const often = score(good.replace("cap 5 min", "cap 2:00"));
    for (const of of ["p10", "p50", "p90"]) expect([of, typeof often[of]]).toEqual([of, "number"]);
  });
});
