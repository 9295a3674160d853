// The answer in large type, what to look for, cautions, and the rule it comes from.
export default {
  render({model, el}) {
    const text = (tag, name) => make(tag, {class: `coach-${name}`});
    const parts = {label: text("p", "small"), headline: text("p", "headline"), sentence: text("p", "sentence")};
    const why = text("p", "why"), chances = text("p", "why"), cautions = make("ul", {class: "coach-cautions", "aria-label": "Cautions"});
    const told = (title) => {
      const words = make("p");
      return {words, box: make("div", {class: "coach-told"}, make("p", {class: "coach-title", text: title}), words)};
    };
    const lookFor = told("Look for"), then = told("Then"), conflict = told("The rules disagree");
    const spare = told("The pins left"), rule = told("Rule of thumb");
    const stops = text("p", "small"), source = text("p", "small");
    rule.box.append(stops, source);
    const choices = make("div", {class: "coach-choices"});
    const spoken = make("div", {role: "status", "aria-live": "polite", class: "coach-spoken"});
    const main = make("div", {class: "coach-answer"}, parts.label, parts.headline, parts.sentence, why, chances, choices);
    const rest = make("div", {class: "coach-tells"}, lookFor.box, then.box, conflict.box, spare.box, rule.box);
    el.replaceChildren(make("section", {class: "coach-answer-block", "aria-label": "Answer"}, main, cautions, rest, spoken));

    const put = (node, words, shown = node) => {
      node.textContent = words || "";
      shown.hidden = !words;
    };
    const redraw = () => {
      const look = model.get("look");
      main.dataset.kind = look.kind;
      for (const name of Object.keys(parts)) put(parts[name], look[name]);
      parts.headline.classList.toggle("coach-long", (look.headline || "").length > 19);
      put(why, look.why);
      put(chances, look.chances);
      for (const [name, {words, box}] of Object.entries({look_for: lookFor, then, conflict, spare, rule})) put(words, look[name], box);
      put(stops, look.stops && `Stops being true: ${look.stops}`);
      put(source, look.source);
      cautions.replaceChildren(...(look.cautions || []).map((caution) => make("li", {text: caution})));
      cautions.hidden = !(look.cautions || []).length;
      choices.replaceChildren(...(look.choices || []).map(({action, words, is_main: isMain}) =>
        button(words, () => model.send({do: action}), {class: isMain ? "coach-then" : ""})));
      choices.hidden = !(look.choices || []).length;
      if (spoken.textContent !== look.summary) spoken.textContent = look.summary || "";
    };
    return follow(model, {look: redraw});
  },
};
