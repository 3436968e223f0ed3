/**
 * `npm run fuzz`: a million short inputs, 20,000 changed documents, 5,000 with lines of all kinds, 500 of the longest
 * plans, rows of edits. `SHORT`, `DOCUMENTS`, `LINES`, `LONG`, `ROWS` and `SEED` set how many, and where from.
 */
import { editFaults, faultsOf, linesInPlan, longPlan, mutated, seeded, shortInput } from "./inputs.js";

const { SHORT = "1000000", DOCUMENTS = "20000", LINES = "5000", LONG = "500", ROWS = "40", SEED = "1" } = process.env;
const random = seeded(Number(SEED));
const kinds = new Map<string, { count: number; readonly first: string }>();

function tell(faults: readonly string[], input: string): void {
  for (const fault of faults) {
    const kind = fault.startsWith("takes") ? "takes too long" : fault;
    const known = kinds.get(kind);
    if (known) known.count += 1;
    else {
      kinds.set(kind, { count: 1, first: input });
      console.log(`${fault}\n  ${JSON.stringify(input.slice(0, 1_000))}`);
    }
  }
}

for (const [count, make, said] of [
  [SHORT, shortInput, "short inputs"],
  [DOCUMENTS, mutated, "changed documents"],
  [LINES, linesInPlan, "documents with lines of all kinds"],
  [LONG, longPlan, "of the longest plans"],
] as const) {
  for (let nth = 0; nth < Number(count); nth += 1) {
    const input = make(random);
    tell(faultsOf(input), input);
  }
  console.log(`${count} ${said}`);
}
for (let row = 0; row < Number(ROWS); row += 1) tell(editFaults(Number(SEED) * 1_000 + row, 25), "");
console.log(`${ROWS} rows of 25 edits\n`);
console.log(kinds.size === 0 ? "nothing found" : [...kinds].map(([kind, { count }]) => `${count} × ${kind}`).join("\n"));
process.exitCode = kinds.size === 0 ? 0 : 1;
