// Two sliders and a choice: feet, eyes, and how the bowler walks. A slider's left end is the bowler's left; Python
// keeps boards in the own frame, so that what is slid is turned here by the hand.

const MOST = 6, STEP = 0.5;
const make = (tag, parent, attributes = {}, text = "") => {
  const node = document.createElement(tag);
  for (const name in attributes) node.setAttribute(name, attributes[name]);
  node.textContent = text;
  return parent.appendChild(node);
};
// Without this the notebook takes the keys typed here for its own shortcuts.
const QUIET = { "data-lm-suppress-shortcuts": "true" };
let count = 0;

function slider(model, box, trait, title) {
  const row = make("div", box, { class: "try-row" }), id = `coach-try-${(count += 1)}`;
  make("label", row, { for: id }, title);
  const input = make("input", row, { type: "range", id, min: -MOST, max: MOST, step: STEP, ...QUIET });
  const value = make("output", row, { for: id });
  const turn = () => (model.get("hand") === "left" ? 1 : -1);
  input.addEventListener("input", () => {
    model.set(trait, Number(input.value) * turn() || 0);
    model.save_changes();
  });
  return () => {
    input.value = model.get(trait) * turn();
    value.textContent = model.get("texts")[trait] ?? "";
    input.setAttribute("aria-valuetext", value.textContent);
  };
}

function choice(model, box) {
  const set = make("fieldset", box), name = `coach-try-${(count += 1)}`;
  make("legend", set, {}, "How they walk");
  const words = { slide: "straight ahead: the slide foot moves with the stance", walk: "toward the target" };
  const radios = Object.entries(words).map(([value, text]) => {
    const label = make("label", set), radio = make("input", label, { type: "radio", name, value, ...QUIET });
    make("span", label, {}, text);
    radio.addEventListener("change", () => { model.set("walk", value); model.save_changes(); });
    return radio;
  });
  return () => radios.forEach((radio) => { radio.checked = radio.value === model.get("walk"); });
}

function render({ model, el }) {
  const box = make("div", el, { class: "coach-try" });
  const parts = [slider(model, box, "feet_boards", "Feet"), slider(model, box, "target_boards", "Eyes"), choice(model, box)];
  const answer = make("p", box, { role: "status", class: "try-answer" });
  const error = make("p", box, { role: "alert", class: "try-error" });
  const show = () => {
    parts.forEach((part) => part());
    answer.textContent = model.get("texts").answer ?? "";
    error.textContent = model.get("errors").form ?? "";
  };
  const watched = "change:feet_boards change:target_boards change:walk change:texts change:errors";
  show();
  model.on(watched, show);
  return () => model.off(watched, show);
}

export default { render };
