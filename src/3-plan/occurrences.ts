import { shift, type Span } from "../0-base/span.js";
import type { Line } from "./ast.js";
import type { Clauses, Expression, Word } from "./parts.js";
import { partsOf } from "./formula.js";
import { lineKinds } from "./lines/kinds.js";
import type { FoundNames, NameKind } from "./lines/line-kind.js";
import { formulaName, subjectKey } from "./names.js";
import type { PlacedBlock } from "./open.js";
import type { World } from "./world.js";

/** One place where a name stands. `span` counts from the start of the document. */
export interface Occurrence {
  readonly kind: NameKind;
  readonly name: string;
  /** The event of a stage or station, the plan of a pair or lane; null where the name is the whole notebook's. */
  readonly scope: string | null;
  readonly span: Span;
  readonly declares: boolean;
  /** Inside a formula blanks and hyphens are written `_`. */
  readonly inFormula: boolean;
  /** It is the first on its line, where words of the language open one; a row of abilities is told by its measure. */
  readonly opensLine: boolean;
}

/** Two occurrences of one thing have the same key. */
export function keyOf({ kind, name, scope }: Pick<Occurrence, "kind" | "name" | "scope">): string {
  return `${kind}\n${scope ?? ""}\n${kind === "movement" || kind === "hold" ? subjectKey(name) : name}`;
}

/** The documents of a notebook, read, with all that they declare. */
export interface ReadNotebook {
  readonly documents: readonly { readonly path: string; readonly blocks: readonly PlacedBlock[] }[];
  readonly world: World;
}

/** Every name of a notebook, by document, in the order of the text. */
export function occurrencesIn(notebook: ReadNotebook): ReadonlyMap<string, readonly Occurrence[]> {
  const namesOf = namesReader(notebook);
  return new Map(notebook.documents.map(({ path, blocks }) => [path, blocks.flatMap(namesOf)]));
}

/** Gives the names of a block, which may have been read apart from the notebook around it. */
export function namesReader({ documents, world }: ReadNotebook): (block: PlacedBlock) => readonly Occurrence[] {
  const likes = new Map<string, string>();
  for (const { blocks } of documents) {
    for (const {
      read: { line },
    } of blocks)
      if (line.kind === "event" && line.like) likes.set(line.name.text, line.like.text);
  }
  return (block) => new Names(world, likes, block).of(block.read.line);
}

class Names implements FoundNames {
  private readonly found: Occurrence[] = [];
  /** The plan or event around the line, for names that belong to it. */
  plan: string | null = null;
  event: string | null = null;
  private pairs: readonly string[] = [];

  constructor(
    private readonly world: World,
    private readonly likes: ReadonlyMap<string, string>,
    private readonly block: PlacedBlock,
  ) {}

  of(line: Line): readonly Occurrence[] {
    if (line.kind === "plan") {
      this.plan = line.name.text;
      this.pairs = line.body.flatMap((inner) => (inner.kind === "pair" ? [inner.name.text] : []));
      this.event = this.ownerOf(line.event.text);
    } else if (line.kind === "event") this.event = this.ownerOf(line.name.text);
    else if (line.kind === "log") this.event = this.ownerOf(this.world.plans.get(line.plan.text)?.line.event.text ?? "");
    if (line.kind !== "broken") lineKinds[line.kind].names?.(line, this);
    for (const inner of line.body) this.of(inner);
    return this.found;
  }

  isAthlete(name: string): boolean {
    return this.world.athletes.has(name);
  }

  /** The event that declares another's stages: the first of those that are like each other. */
  private ownerOf(event: string): string {
    const passed = new Set([event]);
    let owner = event;
    for (let next = this.likes.get(owner); next !== undefined && !passed.has(next); next = this.likes.get(owner)) {
      passed.add(next);
      owner = next;
    }
    return owner;
  }

  add(kind: NameKind, word: Word | null, declares = false, scope: string | null = null): void {
    if (!word) return;
    const opensLine = kind !== "movement" && kind !== "hold" && /(^|\n)[^\S\n]*$/.test(this.block.text.slice(0, word.span.from));
    this.found.push({ kind, name: word.text, scope, span: shift(word.span, this.block.from), declares, inFormula: false, opensLine });
  }

  who(words: readonly Word[]): void {
    for (const word of words) {
      if (this.pairs.includes(word.text)) this.add("pair", word, false, this.plan);
      else this.add("athlete", word);
    }
  }

  clauses({ hold }: Clauses): void {
    if (!hold) return;
    this.who(hold.who);
    this.add("hold", hold.hold);
  }

  /** `Steady.Ines.reps`: each dotted word that names something. */
  formula(expression: Expression): void {
    partsOf(expression).forEach((part) => this.formula(part));
    if (expression.kind !== "reference") return;
    const { from, to } = expression.span;
    let owner: NameKind | null = null;
    for (const { 0: word, index } of this.block.text.slice(from, to).matchAll(/[^.\s]+/g)) {
      const named: Pick<Occurrence, "kind" | "name"> | null =
        this.namedInFormula(word, owner) ?? (index === 0 ? { kind: "value", name: word } : null);
      if (!named) return;
      const at = this.block.from + from + index;
      owner = named.kind;
      this.found.push({
        ...named,
        scope: null,
        span: { from: at, to: at + word.length },
        declares: false,
        inFormula: true,
        opensLine: false,
      });
    }
  }

  private namedInFormula(word: string, owner: NameKind | null): Pick<Occurrence, "kind" | "name"> | null {
    const { lets, plans, events, athletes, abilities } = this.world;
    const subjects = new Set([...abilities.values()].flatMap((known) => [...known.values()].map(({ name }) => name)));
    const known: readonly (readonly [NameKind, Iterable<string>])[] =
      owner === null
        ? [
            ["value", lets.keys()],
            ["plan", plans.keys()],
            ["event", events.keys()],
            ["athlete", athletes.keys()],
          ]
        : owner === "plan"
          ? [["athlete", athletes.keys()]]
          : owner === "athlete"
            ? [["movement", subjects]]
            : [];
    for (const [kind, names] of known) for (const name of names) if (formulaName(name) === word) return { kind, name };
    return null;
  }
}
