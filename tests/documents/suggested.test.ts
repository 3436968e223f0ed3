/** What is suggested for each event of the documents, as text beside them: read it aloud before a change of it is kept. */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { suggestedText, suggestions } from "../../src/cli/suggest.js";
import { compile } from "../../src/compile.js";
import { readDocuments, root } from "../notebook.js";

/** A look as short as a coach's first: longer ones are measured in `tests/optima`. */
const steps = 300;

const withEvents = readDocuments("tests/documents").filter(({ text }) => /^event /m.test(text));

describe("what is suggested for", () => {
  it.each(withEvents.map(({ path, text }) => [path, text] as const))("%s", { timeout: 60_000 }, async (path, text) => {
    const documents = [{ path, text }];
    const compiled = compile(documents);
    const pages = [...compiled.kept.world.events.values()].map(({ name }) => {
      const asked = {
        name,
        target: null,
        team: null,
        steps,
        seconds: Number.POSITIVE_INFINITY,
        seed: 1,
        count: 3,
        risk: 1 / 3,
        wishes: "",
      };
      const found = suggestions(asked, documents, compiled, () => undefined);
      return `# ${name}\n${found.ok ? suggestedText(found) : `${found.reason}\n`}`;
    });
    await expect(pages.join("\n")).toMatchFileSnapshot(join(root, "tests/documents", path.replace(".rota", ".suggested.txt")));
  });
});
