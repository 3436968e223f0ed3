/** `npm run recovery`: from known abilities logs are drawn and the abilities learnt back; how often the stated 80 % hold them. */
import { kinds, recover, type Tally } from "./drawn-logs.js";

const seeds = Number(process.env.SEEDS ?? 200);
console.log(`${seeds} drawn logs of each plan; unknowns of which a log tells something\n`);
console.log("plan      told  in 80 %  error, of the test's own");
const all: Tally = { told: 0, inside: 0, squared: 0, squaredBefore: 0 };
for (const name of kinds.filter((one) => (process.env.PLAN ?? one) === one)) {
  const tally: Tally = { told: 0, inside: 0, squared: 0, squaredBefore: 0 };
  for (let seed = 1; seed <= seeds; seed += 1) recover(name, seed, tally);
  row(name, tally);
  all.told += tally.told;
  all.inside += tally.inside;
  all.squared += tally.squared;
  all.squaredBefore += tally.squaredBefore;
}
row("all", all);

function row(name: string, { told, inside, squared, squaredBefore }: Tally): void {
  console.log(
    `${name.padEnd(8)}${String(told).padStart(6)}${`${((100 * inside) / told).toFixed(1)} %`.padStart(9)}${Math.sqrt(
      squared / squaredBefore,
    )
      .toFixed(2)
      .padStart(9)}`,
  );
}
