// The answer in large type with what to look for, or (part "grounds") the rule it comes from.
const told = (title) => {
  const words = make("p");
  return {words, box: make("div", {class: "coach-told"}, make("p", {class: "coach-title", text: title}), words)};
};
const put = (node, words, shown = node) => {
  node.textContent = words || "";
  shown.hidden = !words;
};

function answer(model, el) {
  const text = (name) => make("p", {class: `coach-${name}`});
  const parts = {label: text("small"), headline: text("headline"), sentence: text("sentence"), why: text("why"), chances: text("why")};
  const boxes = {look_for: told("Look for"), then: told("Then"), conflict: told("The rules disagree"), spare: told("For this spare")};
  const cautions = make("ul", {class: "coach-cautions", "aria-label": "Cautions"}), choices = make("div", {class: "coach-choices"});
  const spoken = make("div", {role: "status", "aria-live": "polite", class: "coach-spoken"});
  const main = make("div", {class: "coach-answer"}, ...Object.values(parts), choices);
  const rest = make("div", {class: "coach-tells"}, ...Object.values(boxes).map(({box}) => box));
  el.replaceChildren(make("section", {"aria-label": "Answer"}, main, cautions, rest, spoken));
  let label = null;

  return () => {
    const look = model.get("look"), hadFocus = choices.contains(document.activeElement);
    main.dataset.kind = look.kind;
    Object.entries(parts).forEach(([name, node]) => put(node, look[name]));
    Object.entries(boxes).forEach(([name, {words, box}]) => put(words, look[name], box));
    parts.headline.classList.toggle("coach-long", (look.headline || "").length > 19);
    cautions.replaceChildren(...(look.cautions || []).map((caution) => make("li", {text: caution})));
    cautions.hidden = !(look.cautions || []).length;
    choices.replaceChildren(...(look.choices || []).map(({action, words, is_main: isMain}) =>
      button(words, () => model.send({do: action}), {class: isMain ? "coach-then" : ""})));
    choices.hidden = !(look.choices || []).length;
    if (hadFocus) focusStrip(el);
    if (spoken.textContent !== look.summary) spoken.textContent = look.summary || "";
    const isNew = label != null && label !== look.label && look.kind !== "before";
    if (isNew && el.getBoundingClientRect().top < 0) el.scrollIntoView({block: "start"});    // on a phone it stands above the form
    label = look.label;
  };
}

function grounds(model, el) {
  const rule = told("Rule of thumb"), stops = told("Stops being true"), notes = told("Also"), source = make("p", {class: "coach-small"});
  rule.box.append(source);
  el.replaceChildren(make("section", {class: "coach-grounds", "aria-label": "Where the answer comes from"},
    make("div", {class: "coach-tells"}, rule.box, stops.box, notes.box)));
  return () => {
    const look = model.get("look");
    put(rule.words, look.rule, rule.box);
    put(stops.words, look.stops, stops.box);
    put(notes.words, (look.notes || []).join(" "), notes.box);
    put(source, look.source);
  };
}

export default {
  render({model, el}) {
    return follow(model, {look: (model.get("part") === "grounds" ? grounds : answer)(model, el)});
  },
};
