import { compile } from "../compile.js";
import { Draw } from "../4-timeline/draw.js";
import { runDays } from "../4-timeline/spread.js";
import { quantile, type BenchRow, times } from "./measure.js";

const draws = 10_000;
const turns = 60;
const reps = 5;

/** 10,000 days of a plan of 60 turns, against a bare loop that does no more than its arithmetic. */
export function spreadRows(): readonly BenchRow[] {
  const text = `team Kelp Street
  Ines woman
  Marta woman
  Bram man
ability  Ines  Marta  Bram
  squat  unbroken  34  29  41  reps
  squat  cycle  2.4  2.6  2.2  s
  squat  in 5 min  80  70  90  reps
event Harbour
  score time
  cap 20 min
  handover 3 s
  stage ${turns * reps} squat
plan Sixty for Harbour
  repeat
    Ines ${reps}
    Marta ${reps}
    Bram ${reps}
`;
  const { documents, kept } = compile([{ path: "a.rota", text }]);
  const plan = [...documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []))[0];
  if (!plan) throw new Error("the plan of the benchmark does not resolve");
  const ms = quantile(times(5, () => void runDays(plan, kept.abilities, kept.world.constants, { to: draws })));
  const floorMs = quantile(times(5, bareLoop));
  return [
    { name: "10,000 days of 60 turns", ms, floorMs, floor: "a bare loop of the same arithmetic", most: 3 },
    { name: "10,000 days of 60 turns", ms, floorMs: 400, floor: "400 ms", most: 1 },
  ];
}

let sink = 0;

/** The same draws, reps, rests and handovers as plain arithmetic: no plan, no turns, nobody to ask for. */
function bareLoop(): void {
  const [capacity, cycleS, fade, fastShare, fastRate, slowRate] = [14, 2.4, 0.5, 0.6, 1 / 31, 1 / 300];
  const draw = new Draw(1);
  for (let at = 0; at < draws; at += 1) {
    draw.go(at);
    let [fast, slow, atS] = [0, 0, 0];
    const form = draw.ability(0, 1);
    for (let turn = 0; turn < turns; turn += 1) {
      const pace = draw.set(turn % 3, turn);
      atS += 3 * draw.handover(turn);
      fast *= Math.exp(-fastRate * 30);
      slow *= Math.exp(-slowRate * 30);
      for (let rep = 0; rep < reps; rep += 1) {
        const used = (fast + slow) / (capacity * form);
        const seconds = cycleS * (1 + fade * used * used) * pace;
        const [toFast, toSlow] = [fastShare / seconds / fastRate, (1 - fastShare) / seconds / slowRate];
        fast = toFast + (fast - toFast) * Math.exp(-fastRate * seconds);
        slow = toSlow + (slow - toSlow) * Math.exp(-slowRate * seconds);
        atS += seconds;
      }
    }
    sink += atS;
  }
}
