/** What can begin while the page's own code is on its way: the home is read; the worker starts, unless the home gave answers. */
import { askedFor } from "./address.js";
import { Core } from "./core.js";
import { openHome } from "./homes/open-home.js";

const core = new Core();
const opened = openHome(askedFor()).then((home) => {
  if (!home.listed.ok || !home.listed.said) core.start();
  return home;
});

void import("./rota-app.js").then(({ RotaApp }) => document.body.prepend(new RotaApp(core, opened)));
