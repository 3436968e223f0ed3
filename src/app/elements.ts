/** The parts of the page that stand in it by their tag alone. */
import "./answer-detail.js";
import "./document-list.js";
import "./lane-picture.js";
import "./log-lessons.js";
import "./number-trial.js";
import "./picture-room.js";
import "./plan-ideas.js";
import "./rota-conflict.js";
import "./rota-menu.js";
import "./week-grid.js";
import "./what-matters.js";
