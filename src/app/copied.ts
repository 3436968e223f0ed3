import { applyEdits } from "../1-text/edits.js";
import { freeName } from "../3-plan/names.js";
import { occurrencesIn } from "../3-plan/occurrences.js";
import { rename } from "../3-plan/rename.js";
import { compile, type Compiled } from "../compile.js";

/** What a copy may not declare again, since it is the same thing. */
const shared = new Set(["team", "movement", "hold", "ability", "assume"]);
/** What a copy declares under a name of its own. */
const renamed = ["event", "plan", "value"] as const;

/**
 * A document's text as another one beside it: its events, plans and values bear names that are free, and what they are made for
 * goes along; teams, tests and what movements ask stay where they are, the notebook's own.
 */
export function copied(text: string, { kept: { world } }: Compiled): string {
  const taken = new Map(
    [...world.events.keys(), ...world.plans.keys(), ...world.lets.keys(), ...world.weeks.map(({ line }) => line.name.text)].map((name) => [
      name,
      name,
    ]),
  );
  let copy = withoutShared(text);
  for (const kind of renamed) {
    for (const name of declared(copy, kind)) {
      const names = namesIn(copy);
      const target = [...names.values()].flat().find((one) => one.kind === kind && one.declares && one.name === name);
      const free = freeName(name, taken);
      const done = target && rename(names, target, free);
      if (!done?.ok) continue;
      copy = applyEdits(copy, done.edits.get(path) ?? []);
      taken.set(free, name);
    }
  }
  return copy;
}

const path = "copy.rota";

function namesIn(text: string) {
  const { documents, kept } = compile([{ path, text }]);
  return occurrencesIn({
    documents: [...documents].map(([at, { document }]) => ({ path: at, blocks: document.blocks })),
    world: kept.world,
  });
}

function declared(text: string, kind: (typeof renamed)[number]): readonly string[] {
  return [...new Set([...namesIn(text).values()].flat().flatMap((one) => (one.kind === kind && one.declares ? [one.name] : [])))];
}

/** Without the blocks that the notebook has already. */
function withoutShared(text: string): string {
  const blocks = compile([{ path, text }]).documents.get(path)?.blocks ?? [];
  const gone = blocks.flatMap(({ block: { from, text: own, read } }) =>
    shared.has(read.line.kind) ? [{ span: { from, to: from + own.length }, text: "" }] : [],
  );
  return applyEdits(text, gone).replace(/\n{3,}/g, "\n\n");
}
