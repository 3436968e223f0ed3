/** The same editor over the same text, without answers: the floor of the page's rows. */
import { EditorState } from "@codemirror/state";
import { EditorView } from "@codemirror/view";
import { bare } from "../editor/editor.js";
import { documentOf } from "./documents.js";

const lines = Number(new URLSearchParams(location.search).get("lines"));
const parent = document.querySelector<HTMLElement>(".sheet");
if (parent) new EditorView({ parent, state: EditorState.create({ doc: documentOf(lines), extensions: [bare()] }) });
