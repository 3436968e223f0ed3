import { randomBytes, timingSafeEqual } from "node:crypto";
import { readFile } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, resolve, sep } from "node:path";
import { openedFirst } from "../1-text/document.js";
import { FirstScreen } from "./first-screen.js";
import type { Folder } from "./folder.js";

const largestBody = 4_100_000;
/** A request that is not whole by then is given up. */
const longestRequestMs = 30_000;

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".png": "image/png",
};

/** Where the notebook is served, and the end of it. */
export interface Serving {
  readonly url: string;
  readonly server: Server;
}

/**
 * Serves the built page and one folder's documents on the loopback address only. Answers its own page alone: Host and
 * Origin must be this server's, and writing needs the token that only the page it served was given.
 */
export function serve(folder: Folder, page: string, port: number): Promise<Serving> {
  const token = randomBytes(24).toString("base64url");
  const firstScreen = new FirstScreen();
  const server = createServer((request, response) => {
    answer(request, response, { folder, firstScreen, page: resolve(page), token, port: portOf(server) }).catch(() => {
      if (!response.headersSent) send(response, 400, "text/plain", "The server could not read that.");
    });
  });
  server.requestTimeout = longestRequestMs;
  server.headersTimeout = longestRequestMs;
  return new Promise((done, failed) => {
    server.once("error", failed);
    server.listen(port, "127.0.0.1", () => done({ url: `http://127.0.0.1:${portOf(server)}/`, server }));
  });
}

interface Served {
  readonly folder: Folder;
  readonly firstScreen: FirstScreen;
  readonly page: string;
  readonly token: string;
  readonly port: number;
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === "object" && address ? address.port : 0;
}

async function answer(request: IncomingMessage, response: ServerResponse, served: Served): Promise<void> {
  const hosts = [`127.0.0.1:${served.port}`, `localhost:${served.port}`];
  const { host, origin } = request.headers;
  if ((request.headersDistinct.host ?? []).length > 1) return send(response, 400, "text/plain", "One Host, please.");
  if (!host || !hosts.includes(host) || (origin !== undefined && !hosts.some((own) => origin === `http://${own}`))) {
    return send(response, 403, "text/plain", "This server answers its own page only.");
  }
  const url = addressOf(request.url ?? "/", host);
  if (!url) return send(response, 400, "text/plain", "That is no address of this server.");
  if (url.pathname === "/notebook" || url.pathname === "/document") {
    if (!isToken(request.headers["x-rotaline-token"], served.token))
      return send(response, 403, "text/plain", "The page is from an earlier start. Load it again.");
    return url.pathname === "/notebook" && request.method === "GET"
      ? readNotebook(response, url, served)
      : changeDocument(request, response, url, served.folder);
  }
  if (request.method !== "GET" && request.method !== "HEAD") return send(response, 405, "text/plain", "Only reading is possible here.");
  return answerPage(response, url.pathname, served);
}

/** All documents; with `first`, the answers of the document that a page asking for it opens with. */
async function readNotebook(response: ServerResponse, url: URL, { folder, firstScreen }: Served): Promise<void> {
  const { documents, unreadable } = await folder.documents();
  const first = url.searchParams.get("first");
  const said =
    first === null
      ? null
      : firstScreen.of(
          openedFirst(
            documents.map(({ path }) => path),
            first,
          ),
          documents,
        );
  return json(response, 200, { folder: folder.root.split(sep).at(-1), documents, unreadable, said });
}

async function changeDocument(request: IncomingMessage, response: ServerResponse, url: URL, folder: Folder): Promise<void> {
  const path = url.searchParams.get("path") ?? "";
  if (url.pathname !== "/document" || (request.method !== "PUT" && request.method !== "DELETE"))
    return send(response, 405, "text/plain", "Documents are read with /notebook, written with PUT, taken away with DELETE.");
  const seen = request.headers["if-match"] ?? null;
  const body = request.method === "PUT" ? await bodyOf(request) : "";
  if (body === null) {
    // What is left of the body is not read, so nothing else can come on this connection.
    response.setHeader("connection", "close");
    return send(response, 413, "text/plain", "A document may be four megabytes at most.");
  }
  const saved = request.method === "PUT" ? await folder.write(path, body, seen) : await folder.remove(path, seen);
  return json(response, saved.kind === "saved" ? 200 : saved.kind === "changed" ? 409 : 403, saved);
}

async function answerPage(response: ServerResponse, pathname: string, { folder, page, token }: Served): Promise<void> {
  const name = pathname === "/" ? "index.html" : decoded(pathname);
  const file = name === null ? "" : resolve(join(page, name));
  if (!file.startsWith(page + sep)) return send(response, 404, "text/plain", "There is nothing here.");
  try {
    const bytes = await readFile(file);
    const type = types[extname(file)] ?? "application/octet-stream";
    const body = file.endsWith(`${sep}index.html`)
      ? bytes
          .toString("utf8")
          .replace("<head>", `<head><meta name="rotaline-token" content="${token}"><meta name="rotaline-folder" content="${folder.id}">`)
      : bytes;
    return send(response, 200, type, body);
  } catch {
    return send(response, 404, "text/plain", "There is nothing here.");
  }
}

/** Null for what is no address of this host. */
function addressOf(path: string, host: string): URL | null {
  try {
    const url = new URL(path, `http://${host}`);
    return url.host === host ? url : null;
  } catch {
    return null;
  }
}

function decoded(pathname: string): string | null {
  try {
    const name = decodeURIComponent(pathname);
    return name.includes("\0") ? null : name;
  } catch {
    return null;
  }
}

function isToken(given: string | readonly string[] | undefined, token: string): boolean {
  const [had, wanted] = [Buffer.from(typeof given === "string" ? given : ""), Buffer.from(token)];
  return had.length === wanted.length && timingSafeEqual(had, wanted);
}

async function bodyOf(request: IncomingMessage): Promise<string | null> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    size += part.length;
    if (size > largestBody) return null;
    parts.push(part);
  }
  return Buffer.concat(parts).toString("utf8");
}

function json(response: ServerResponse, code: number, value: unknown): void {
  send(response, code, "application/json; charset=utf-8", JSON.stringify(value));
}

function send(response: ServerResponse, code: number, type: string, body: string | Buffer): void {
  response.writeHead(code, {
    "content-type": type,
    "cache-control": "no-store",
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "content-security-policy":
      "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; worker-src 'self' blob:; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; object-src 'none'",
  });
  response.end(body);
}
