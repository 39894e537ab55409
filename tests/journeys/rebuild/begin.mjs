// A garden begun as a newcomer begins it: where it lies, the plot, north, how it falls, what stands around.
import { chosen, corners, open_strip } from "./draw.mjs";
import { as_typed } from "./person.mjs";

export async function begin(person, url, { garden, boundary, ground }) {
  const { page } = person;
  await page.goto(url);
  await person.press("Begin a garden");
  await page.getByLabel(/nearest town/).waitFor();
  await person.type(`${garden.latitude_deg}, ${garden.longitude_deg}`);
  await page.getByText(/nearest weather/).waitFor();
  await person.type_in(page.getByLabel("What you call it"), garden.title);
  await person.press(page.getByLabel(garden.units === "imperial" ? "feet and inches" : "metres", { exact: true }));
  await person.choose(page.getByLabel("Clocks go as in"), garden.time_zone);
  await person.press("Begin here");
  await page.getByRole("heading", { name: "First steps" }).waitFor();
  await plot(person, boundary, garden.units === "imperial");
  await north(person, garden.plan_north_deg);
  await level(person, ground, garden);
  return page.evaluate(() => decodeURIComponent(location.hash.slice(1).split("/")[0]));
}

const step_open = (person, says) => person.page.locator(".first-step.is-open", { hasText: says });

async function plot(person, boundary, imperial) {
  const { page } = person;
  if (boundary.sides_m !== undefined) {
    const fields = ["From 1 to 2", "From 2 to 3", "From 3 to 4", "From 4 back to 1", "Across, from 1 to 3"];
    for (const [i, length] of [...boundary.sides_m, boundary.diagonal_m].entries()) await person.type_in(page.getByLabel(fields[i]), as_typed(length, "length", imperial));
    await page.getByText(/its corners ± /).first().waitFor();
    await person.press("Keep this plot");
  } else {
    const strip = await open_strip(person, "Boundary");
    await corners(person, strip, boundary.outline, imperial, false);
  }
  await step_open(person, "North").waitFor();
}

async function north(person, plan_north_deg) {
  const step = step_open(person, "North");
  await person.type_in(step.getByLabel("North lies"), String((360 - plan_north_deg) % 360));
  await person.press("So says the shadow");
  await step_open(person, "Level").waitFor();
}

const ways = ["up the page", "up and right", "to the right", "down and right", "down the page", "down and left", "to the left", "up and left"];

/** One fall by its figures; levels that were measured point by point come later, with the soil. */
async function level(person, ground, garden) {
  const step = step_open(person, "Level");
  const eighths = (((ground.toward_deg ?? NaN) - garden.plan_north_deg + 720) % 360) / 45;
  const imperial = garden.units === "imperial";
  if (Number.isInteger(eighths)) {
    await person.press(step.getByRole("button", { name: ways[eighths], exact: true }));
    await person.press(step.getByRole("button", { name: "In figures" }));
    await person.type_in(step.getByRole("textbox", { name: /^It falls/ }), as_typed(ground.falls_m, "length", imperial));
    await person.type_in(step.getByRole("textbox", { name: /^Over a way of/ }), as_typed(ground.over, "length", imperial));
    await step.getByText(/^It falls .* over/).waitFor();
    await person.press(step.getByRole("button", { name: "Keep this fall" }));
  } else await person.press(step.getByRole("button", { name: "Later" }));
  await step_open(person, "Around").waitFor();
}

/** The first of what stands around, drawn from the step; its height typed there. Out: chosen. */
export async function draw_around(person, wall, imperial) {
  const { page } = person;
  const step = step_open(person, "Around");
  await person.press(step.getByRole("button", { name: /hedge/.test(wall.kind) ? "Hedge" : /brick|stone/.test(wall.kind) ? "Wall" : "Fence", exact: true }));
  const strip = page.locator(".draw-strip");
  await person.type_in(strip.getByLabel("kind", { exact: true }), wall.kind);
  await corners(person, strip, wall.line, imperial, false);
  const height = step.getByRole("textbox", { name: /^height of / });
  await height.waitFor();
  await person.type_in(height, as_typed(wall.height_m, "length", imperial));
  await person.key("Enter");
  await person.press(step.locator("button.fact-name").first());
  return chosen(person);
}

export async function end_steps(person) {
  await person.press("To the garden");
  await person.press("That will do");
}
