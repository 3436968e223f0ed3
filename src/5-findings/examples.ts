/** Ground for the rules' examples: a team of two, one movement, one hold. Not shown: the examples end with it. */

export const pierNine = `team Pier Nine
  Ada woman
  Olu man
ability  Ada  Olu
  box jump  unbroken  20  24  reps
  box jump  cycle  2  2  s
  box jump  fade  0  0  %
  stone  hold  60  90  s
`;
