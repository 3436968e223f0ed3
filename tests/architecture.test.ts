/** The one direction: numbered rooms import only from lower numbers; they know no DOM, disk, clock or chance. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { root } from "./notebook.js";

const source = join(root, "src");

/** Named rooms and the rooms beside the numbered ones that each may use. */
const shells: Readonly<Record<string, readonly string[]>> = {
  cli: ["server"], // `rotaline open` is a command that starts the server.
  server: [],
  editor: [],
  app: ["editor"],
  bench: ["editor", "server"],
};

function files(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? files(path) : path.endsWith(".ts") ? [path] : [];
  });
}

interface Import {
  readonly from: string;
  readonly to: string;
}

const written = files(source).filter((file) => !file.includes("generated"));
const imports: readonly Import[] = written.flatMap((file) =>
  [...readFileSync(file, "utf8").matchAll(/(?:from|import|new URL\()\s*"(\.[^"]+)"/g)].map(([, path = ""]) => ({
    from: relative(source, file),
    to: relative(source, join(dirname(file), path)).replace(/\.js$/, ".ts"),
  })),
);

const roomOf = (path: string): string => (path.includes("/") ? (path.split("/")[0] ?? "") : "");
const level = (room: string): number => Number(/^(\d)-/.exec(room)?.[1] ?? Number.NaN);

describe("the rooms of src", () => {
  it("numbered rooms import only from lower numbers or their own", () => {
    const upward = imports.filter(
      ({ from, to }) => level(roomOf(from)) >= 0 && !to.startsWith("../grammar/") && !(level(roomOf(to)) <= level(roomOf(from))),
    );
    expect(upward).toEqual([]);
  });

  it("shells import numbered rooms, compile.ts and what they are allowed", () => {
    const odd = imports.filter(({ from, to }) => {
      const [room, target] = [roomOf(from), roomOf(to)];
      if (!(room in shells) || room === target || target === "" || level(target) >= 0) return false;
      return !to.startsWith("..") && !shells[room]?.includes(target);
    });
    expect(odd).toEqual([]);
  });

  it("no file imports itself by a circle, types among what is imported", () => {
    const graph = new Map<string, string[]>();
    for (const { from, to } of imports) graph.set(from, [...(graph.get(from) ?? []), to]);
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (file: string, path: readonly string[]): void => {
      if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(" → "));
      if (path.includes(file) || done.has(file)) return;
      for (const next of graph.get(file) ?? []) visit(next, [...path, file]);
      done.add(file);
    };
    for (const file of graph.keys()) visit(file, []);
    expect(circles).toEqual([]);
  });

  it("numbered rooms and compile.ts are pure", () => {
    const found = written
      .filter((file) => level(roomOf(relative(source, file))) >= 0 || relative(source, file) === "compile.ts")
      .flatMap((file) =>
        code(file)
          .split("\n")
          .filter((line) =>
            /\b(localStorage|fetch|console|process|performance|setTimeout|globalThis)\s*[.(]|\b(window|document)\.(query|create|body|head|add|inner|loc)|Date\.now|Math\.random|from "node:/.test(
              line,
            ),
          )
          .map((line) => `${relative(source, file)}: ${line.trim()}`),
      );
    expect(found).toEqual([]);
  });

  it("are written without any, enum, or an assertion where a type can say it", () => {
    const found = written.flatMap((file) =>
      code(file)
        .replace(/^import [^;]*;$/gm, "")
        .split("\n")
        .filter((line) =>
          /\bas (?!const\b|never\[\])[A-Z]\w*|\bas any\b|: any\b|<any>|\benum \w|@ts-(ignore|expect)|\w!\.|\w!\[/.test(
            line.replace(/"[^"]*"|`[^`]*`/g, ""),
          ),
        )
        .map((line) => `${relative(source, file)}: ${line.trim()}`),
    );
    expect(found).toEqual([]);
  });

  it("an exported name exists once", () => {
    const names = written.flatMap((file) =>
      [...readFileSync(file, "utf8").matchAll(/^export (?:async )?(?:function\*?|const|class|interface|type) (\w+)/gm)].map(
        ([, name]) => name,
      ),
    );
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });

  it("no line is over 140 columns but for a text that it carries", () => {
    const found = written.flatMap((file) => longLines(file).map((line) => `${relative(source, file)}:${line}`));
    expect(found).toEqual([]);
  });

  it("no function is over 60 lines", () => {
    expect(written.flatMap((file) => longFunctions(file).map((name) => `${relative(source, file)}: ${name}`))).toEqual([]);
  });

  it("files stay small enough to take in, and compile.ts is one page", () => {
    const long = written.filter((file) => readFileSync(file, "utf8").split("\n").length > 400).map((file) => relative(source, file));
    expect(long).toEqual([]);
    expect(readFileSync(join(source, "compile.ts"), "utf8").split("\n").length).toBeLessThanOrEqual(60);
  });

  it("the page carries a policy of its own, for hosts that send none", () => {
    expect(readFileSync(join(source, "app/index.html"), "utf8")).toMatch(
      /content-security-policy[^>]*base-uri 'none'; form-action 'none'/i,
    );
  });

  it("no test measures how long something takes", () => {
    const tests = files(join(root, "tests")).filter((file) => file.endsWith(".test.ts"));
    const timing = /\b(\w+)Ms = (?:Date|performance)\.now\(\)[\s\S]*?toBeLess/;
    expect(tests.filter((file) => timing.test(readFileSync(file, "utf8"))).map((file) => relative(root, file))).toEqual([]);
  });
});

/** The numbers of lines that are too long and on which no string or template of 40 letters begins, ends or goes on. */
function longLines(file: string): readonly number[] {
  const text = readFileSync(file, "utf8");
  const tree = ts.createSourceFile(file, text, ts.ScriptTarget.Latest);
  const long = new Set(text.split("\n").flatMap((line, at) => (line.length > 140 ? [at] : [])));
  const visit = (node: ts.Node): void => {
    const literal = ts.isStringLiteralLike(node) || ts.isTemplateExpression(node) || node.kind === ts.SyntaxKind.RegularExpressionLiteral;
    const [from, to] = [node.getStart(tree), node.end].map((at) => tree.getLineAndCharacterOfPosition(at).line);
    if (literal && node.end - node.getStart(tree) >= 40) for (let at = from ?? 0; at <= (to ?? 0); at += 1) long.delete(at);
    ts.forEachChild(node, visit);
  };
  if (long.size > 0) visit(tree);
  return [...long].map((at) => at + 1);
}

function longFunctions(file: string): readonly string[] {
  const tree = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const lines = [node.getStart(), node.end].map((at) => tree.getLineAndCharacterOfPosition(at).line);
    if (ts.isFunctionLike(node) && (lines[1] ?? 0) - (lines[0] ?? 0) >= 60) found.push(node.name?.getText() ?? "without a name");
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

/** A file's text without comments. */
function code(file: string): string {
  return readFileSync(file, "utf8")
    .replace(/\/\*[\s\S]*?\*\//g, "")
    .replace(/^\s*\/\/.*$/gm, "");
}
