import { type About, abouts } from "../7-view/answer.js";
import { type Column, columns } from "../7-view/columns.js";
import type { MenuItem } from "./rota-menu.js";
import { rememberAs, remembered } from "./remembered.js";

const key = "rotaline-answers-hidden";

/** What can be put away: kinds of answers, and columns of their tables. */
export type Showable = About | Column;
const allColumns: readonly Column[] = Object.values(columns).flat();
const showable: readonly Showable[] = [...abouts, ...allColumns];

/** What this browser's coach has put away. */
export function putAway(): ReadonlySet<Showable> {
  const kept = remembered(key) ?? "";
  return new Set(showable.filter((one) => kept.includes(`"${one}"`)));
}

/** The menu that shows and puts away: all answers, one kind, one column. Keeps what it is left at. */
export function answerItems(unseen: ReadonlySet<Showable>, change: (unseen: ReadonlySet<Showable>) => void): readonly MenuItem[] {
  const hide = (which: (one: Showable) => boolean) => (): void => {
    const hidden = new Set(showable.filter(which));
    rememberAs(key, JSON.stringify([...hidden]));
    change(hidden);
  };
  return [
    { label: "all", checked: unseen.size === 0, run: hide((one) => unseen.size === 0 && abouts.some((about) => about === one)) },
    ...showable.map((what) => ({
      label: abouts.some((about) => about === what) ? what : `column: ${what}`,
      checked: !unseen.has(what),
      run: hide((one) => unseen.has(one) !== (one === what)),
    })),
  ];
}
