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

/** The same two with a second pair, for rules about pairs and shares. */
export const kelpStreet = `team Kelp Street
  Ines woman
  Marta woman
  Bram man
  Tariq man
ability  Ines  Marta  Bram  Tariq
  box jump  unbroken  60  60  60  60  reps
  box jump  cycle  2  2.6  2.1  2.5  s
  box jump  fade  0  0  0  0  %
  stone  hold  90  90  120  120  s
`;
