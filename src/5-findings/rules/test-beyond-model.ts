import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock, plain } from "../../0-base/quantity.js";
import { always, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "test-beyond-model": { reps: number; nearest: number; athlete: string; subject: string; seconds: number };
  }
}

const ground = "team Pier Nine\n  Ada woman\nability  Ada\n  box jump  unbroken  12  reps\n  box jump  cycle  2.2  s\n";

export const testBeyondModel: Rule<"test-beyond-model"> = {
  id: "test-beyond-model",
  severity: always("warning"),
  title: "A timed test that the model cannot reach",
  why: "The plan is then worked out with the nearest that the model can do, not with what was tested.",
  source: "the reserve model: recovery speeds the slow pool alone, so that a best set allows a largest total",
  bad: `${ground}  box jump  in 5 min  «10  reps»\n`,
  good: `${ground}  box jump  in 5 min  33  reps\n`,
  check: beyond,
  message: (values) => {
    const [tested, nearest] = [values.reps, values.nearest];
    const what = `${values.athlete}: ${plain(tested)} reps of ${values.subject} in ${clock(values.seconds)}`;
    const hint =
      tested < nearest
        ? "That is fewer than the model gives to somebody who hardly recovers"
        : "That is more than the model gives to anybody";
    return `${what}. ${hint} with this best set and cycle (${plain(nearest)}). Look whether unbroken, cycle and this test are of one load and one day.`;
  },
};

function beyond({ line, evaluation: { abilities, world } }: Judged): readonly ProblemOf<"test-beyond-model">[] {
  if (line.kind !== "ability") return [];
  return line.body.flatMap((row) => {
    if (row.kind !== "ability row" || row.measure.name !== "in") return [];
    return line.athletes.flatMap((athlete, at): readonly ProblemOf<"test-beyond-model">[] => {
      const cell = row.cells[at];
      if (cell?.kind !== "value" || !world.athletes.has(athlete.text)) return [];
      const found = abilities.movement(athlete.text, row.subject.text, null).beyond.find(({ test }) => test.reps === cell.amount);
      if (!found) return [];
      const values = {
        athlete: athlete.text,
        subject: row.subject.text,
        reps: found.test.reps,
        seconds: found.test.seconds,
        nearest: found.nearest,
      };
      return [problem("test-beyond-model", cell.span, values)];
    });
  });
}
