// The pictures of every state at the three sizes.  node pictures.mjs build/spadework FOLDER [only]
import { tmpdir } from "node:os";
import { join } from "node:path";
import { kSizes, launch, Served } from "./browser.mjs";
import { further_states, states, visit } from "./states.mjs";

const [program, folder, only = ""] = process.argv.slice(2);
const browser = await launch();
for (const name of [...Object.keys(states), ...Object.keys(further_states)]) {
  if (only !== "" && only !== name) continue;
  for (const [size_name, size] of Object.entries(kSizes)) {
    const served = await Served.start(program, { folder: join(tmpdir(), "gardens") }); // one state changes nothing of the next
    const garden = await served.example("ker-avel");
    const page = await visit(served, browser, garden, name, size);
    await page.screenshot({ path: join(folder, `app-${name}-${size_name}.png`) });
    await page.context().close();
    await served.close();
  }
}
await browser.close();
