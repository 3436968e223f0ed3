import { execFileSync } from "node:child_process";
import { chmodSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveCopy, type Served } from "./page.js";

let served: Served;
let token = "";

interface Reply {
  readonly status: number;
  readonly body: string;
}

function ask(
  path: string,
  {
    method = "GET",
    headers = {},
    body = "",
  }: { readonly method?: string; readonly headers?: Record<string, string>; readonly body?: string } = {},
): Promise<Reply> {
  const { port } = new URL(served.url);
  return new Promise((done, failed) => {
    const call = request({ host: "127.0.0.1", port, path, method, headers: { host: `127.0.0.1:${port}`, ...headers } }, (response) => {
      const parts: Buffer[] = [];
      response.on("data", (part: Buffer) => parts.push(part));
      response.on("end", () => done({ status: response.statusCode ?? 0, body: Buffer.concat(parts).toString() }));
    });
    call.on("error", failed);
    call.end(body);
  });
}

const mine = () => ({ "x-rotaline-token": token });

beforeAll(async () => {
  served = await serveCopy();
  token = /rotaline-token" content="([^"]+)"/.exec((await ask("/")).body)?.[1] ?? "";
});
afterAll(() => void served.server.close());

describe("the local server", () => {
  it("answers its own page only: another host or origin is refused", async () => {
    expect((await ask("/", { headers: { host: "example.org" } })).status).toBe(403);
    expect((await ask("/notebook", { headers: { ...mine(), origin: "http://example.org" } })).status).toBe(403);
    expect((await ask("/notebook", { headers: mine() })).status).toBe(200);
  });

  it("wants the token of its start", async () => {
    expect(token.length).toBeGreaterThan(20);
    expect((await ask("/notebook")).status).toBe(403);
    expect(
      (await ask("/document?path=x.rota", { method: "PUT", headers: { "x-rotaline-token": "x".repeat(token.length) }, body: "x" })).status,
    ).toBe(403);
  });

  it("reads and writes nothing outside its folder, links included", async () => {
    symlinkSync("/etc", join(served.folder, "out"));
    for (const path of ["../x.rota", "/etc/x.rota", "out/x.rota", "notes.txt", "a/../../x.rota"]) {
      expect([
        path,
        (await ask(`/document?path=${encodeURIComponent(path)}`, { method: "PUT", headers: mine(), body: "x" })).status,
      ]).toEqual([path, 403]);
    }
    for (const path of ["/../package.json", "/%2e%2e/%2e%2e/package.json", "/..%2fpackage.json"])
      expect((await ask(path)).status).toBe(404);
  });

  it("gives the answers of the first screen to a page that opens, and the texts alone to one that looks again", async () => {
    const text = readFileSync(join(served.folder, "one-file.rota"), "utf8");
    const { said } = JSON.parse((await ask("/notebook?first=one-file.rota", { headers: mine() })).body);
    const [plan] = said.flatMap(({ answers }: { answers: readonly { offset: number; shown: string }[] }) =>
      answers.filter(({ offset }) => text.startsWith("plan Simple", offset)),
    );
    expect(plan.shown).toMatch(/^1:41/); // eight sets of 10 s and seven handovers of 3 s: 101 s
    expect(JSON.parse((await ask("/notebook", { headers: mine() })).body).said).toBe(null);
  });

  it("never overwrites what somebody else wrote meanwhile", async () => {
    const { documents } = JSON.parse((await ask("/notebook", { headers: mine() })).body);
    const { version } = documents.find(({ path }: { path: string }) => path === "team.rota");
    writeFileSync(join(served.folder, "team.rota"), "# by somebody else\n");
    const reply = await ask("/document?path=team.rota", { method: "PUT", headers: { ...mine(), "if-match": version }, body: "# mine\n" });
    expect([reply.status, JSON.parse(reply.body).document.text]).toEqual([409, "# by somebody else\n"]);
    expect(readFileSync(join(served.folder, "team.rota"), "utf8")).toBe("# by somebody else\n");
    const again = await ask("/document?path=team.rota", {
      method: "PUT",
      headers: { ...mine(), "if-match": JSON.parse(reply.body).document.version },
      body: "# mine\n",
    });
    expect(again.status).toBe(200);
    expect(readFileSync(join(served.folder, "team.rota"), "utf8")).toBe("# mine\n");
  });
});

describe("the local server, of what was once found wrong", () => {
  const put = (path: string, body: string, seen?: string): Promise<Reply> =>
    ask(`/document?path=${encodeURIComponent(path)}`, { method: "PUT", headers: { ...mine(), ...(seen && { "if-match": seen }) }, body });

  it("of two writes at once over one version takes one: the other is told what stands there", async () => {
    let seen: string = JSON.parse((await put("two.rota", "# begun\n")).body).version;
    for (let nth = 0; nth < 20; nth += 1) {
      const texts = [`# first ${nth}\n`, `# second ${nth}\n`];
      const replies = await Promise.all(texts.map((text) => put("two.rota", text, seen)));
      expect(replies.map(({ status }) => status).sort()).toEqual([200, 409]);
      const taken = replies.findIndex(({ status }) => status === 200);
      expect(readFileSync(join(served.folder, "two.rota"), "utf8")).toBe(texts[taken]);
      expect(JSON.parse(replies[1 - taken]?.body ?? "").document.text).toBe(texts[taken]);
      seen = JSON.parse(replies[taken]?.body ?? "").version;
    }
  });

  it("a foreign program that writes into a save loses nothing that the server has not seen", async () => {
    const file = join(served.folder, "foreign.rota");
    for (let nth = 0; nth < 60; nth += 1) {
      writeFileSync(file, "# seen\n");
      const { documents } = JSON.parse((await ask("/notebook", { headers: mine() })).body);
      const { version } = documents.find(({ path }: { path: string }) => path === "foreign.rota");
      const saving = put("foreign.rota", "# mine\n", version);
      await new Promise((done) => setTimeout(done, nth % 5));
      writeFileSync(file, "# foreign\n");
      const { status } = await saving;
      const left = readFileSync(file, "utf8");
      // Either the save came whole before it, or it was refused.
      expect([status, left]).toEqual([expect.any(Number), "# foreign\n"]);
    }
  });

  it("answers strange paths, names and heads with what they are, never with a fault of its own", async () => {
    for (const path of ["/%", "/%zz", "//", "/a%00b", "/document?path=%ff", "/document?path=", "/..%5c..%5cx"]) {
      const { status } = await ask(path, { headers: mine() });
      expect([path, status >= 400 && status < 500]).toEqual([path, true]);
    }
    expect((await ask("/notebook", { headers: { "x-rotaline-token": "\u00e9".repeat(token.length) } })).status).toBe(403);
  });

  it("refuses names that would be hidden, looked for elsewhere, or shown as another", async () => {
    const before = readdirSync(served.folder);
    for (const path of [
      ".git/x.rota",
      "node_modules/x.rota",
      "x\n.rota",
      "x\u202e.rota",
      "trip/",
      "a/.b",
      "a/.b.rota",
      `${"x".repeat(300)}.rota`,
      "x.txt",
    ])
      expect([path, (await put(path, "x")).status]).toEqual([path, 403]);
    expect(readdirSync(served.folder)).toEqual(before);
  });

  it("says of no refusal where the folder lies", async () => {
    const { status, body } = await put("one-file.rota/inside.rota", "x");
    expect([status, body]).toEqual([403, expect.not.stringContaining(served.folder)]);
  });

  it("refuses a second Host", async () => {
    const { port } = new URL(served.url);
    const reply = await new Promise<string>((done) => {
      const socket = connect(Number(port), "127.0.0.1", () =>
        socket.write(`GET / HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nHost: example.org\r\n\r\n`),
      );
      socket.once("data", (data: Buffer) => {
        done(data.toString());
        socket.destroy();
      });
    });
    expect(reply.split("\r\n")[0]).toContain("400");
  });

  it("refuses a body over its measure and answers what comes next; a request that is never whole is given up", async () => {
    expect((await put("large.rota", "x".repeat(5_000_000))).status).toBe(413);
    expect((await ask("/notebook", { headers: mine() })).status).toBe(200);
    expect(served.server.requestTimeout).toBeLessThanOrEqual(30_000);
    expect(served.server.headersTimeout).toBeLessThanOrEqual(30_000);
  });

  it("never writes over what is no text, or read-only, and keeps a file's mode", async () => {
    const latin = Uint8Array.from([...Buffer.from("team Caf"), 0xe9, 0x0a]);
    writeFileSync(join(served.folder, "latin.rota"), latin);
    expect((await put("latin.rota", "x")).status).toBe(403);
    expect(Uint8Array.from(readFileSync(join(served.folder, "latin.rota")))).toEqual(latin);
    for (const [mode, wanted] of [
      [0o600, 200],
      [0o444, 403],
    ] as const) {
      const { version } = JSON.parse((await put(`mode${mode}.rota`, "# a\n")).body);
      chmodSync(join(served.folder, `mode${mode}.rota`), mode);
      expect((await put(`mode${mode}.rota`, "# b\n", version)).status).toBe(wanted);
      expect(statSync(join(served.folder, `mode${mode}.rota`)).mode & 0o777).toBe(mode);
    }
  });

  it("serves the rest of a folder with a pipe, bad bytes and a thousand brackets in it, and names what it leaves out", async () => {
    execFileSync("mkfifo", [join(served.folder, "pipe.rota")]);
    writeFileSync(join(served.folder, "deep.rota"), `let x = ${"(".repeat(3_000)}1${")".repeat(3_000)}\n`);
    const { status, body } = await ask("/notebook?first=deep.rota", { headers: mine() });
    const { documents, unreadable } = JSON.parse(body);
    expect(status).toBe(200);
    expect(documents.map(({ path }: { path: string }) => path)).toEqual(expect.arrayContaining(["deep.rota", "team.rota", "week.rota"]));
    expect(unreadable.join("\n")).toMatch(/latin\.rota is not opened[\s\S]*pipe\.rota is not opened/);
  });
});
