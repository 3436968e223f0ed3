import { symlinkSync, readFileSync, writeFileSync } from "node:fs";
import { request } from "node:http";
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
