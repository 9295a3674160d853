// The answer in large type, what it is worth, and what to look for.
export default {
  render({model, el}) {
    const text = (name) => make("p", {class: `coach-${name}`});
    const heads = {big: text("big"), label: text("small"), headline: text("headline"), sentence: text("sentence"), voices: text("why"), why: text("why")};
    const chances = text("small"), waiting = text("waiting");
    const boxes = {look_for: told("Look for"), then: told("Then"), conflict: told("The rules disagree"), spare: told("For this spare")};
    const mend = button("", () => model.send({do: "correct", number: model.get("look").odd_ball}));
    const oddWords = make("p"), odd = make("div", {class: "coach-wide coach-odd"}, oddWords, mend);
    boxes.spare.box.classList.add("coach-wide");
    const cautions = make("ul", {class: "coach-cautions", "aria-label": "Cautions"}), choices = make("div", {class: "coach-choices"});
    const general = make("ul", {"aria-label": "More cautions"}), more = make("details", {class: "coach-cautions-more"}, make("summary", {text: "More cautions"}), general);
    const back = button("", () => model.send({do: "back"}), {class: "coach-back"});
    const spoken = make("div", {role: "status", "aria-live": "polite", class: "coach-spoken"});
    const main = make("div", {class: "coach-answer"}, ...Object.values(heads), chances, waiting, choices, back);
    const rest = make("div", {class: "coach-tells"}, boxes.look_for.box, boxes.then.box, odd, boxes.conflict.box, boxes.spare.box);
    el.replaceChildren(make("section", {"aria-label": "Answer"}, main, cautions, more, rest, spoken));
    let label = null;

    const showWords = (look) => {
      main.dataset.kind = look.kind;
      Object.entries(heads).forEach(([name, node]) => put(node, look[name]));
      Object.entries(boxes).forEach(([name, {words, box}]) => put(words, look[name], box));
      heads.headline.classList.toggle("coach-long", (look.headline || "").length > 19);
      put(chances, look.chances);
      put(oddWords, look.odd, odd);
      mend.textContent = `Correct ball ${look.odd_ball}`;
      [[cautions, cautions, look.cautions || []], [general, more, look.general || []]].forEach(([list, shown, told]) => {
        list.replaceChildren(...told.map((caution) => make("li", {text: caution})));
        shown.hidden = !told.length;
      });
    };
    const showChoices = (look) => {
      const hadFocus = choices.contains(document.activeElement) || back === document.activeElement;
      choices.replaceChildren(...(look.choices || []).map(({action, words, is_main: isMain}) =>
        button(words, () => model.send({do: action}), {class: isMain ? "coach-then" : ""})));
      choices.hidden = !(look.choices || []).length;
      put(back, look.back);
      if (hadFocus) focusStrip(el);
    };
    const redraw = () => {
      const look = model.get("look");
      showWords(look);
      showChoices(look);
      if (spoken.textContent !== look.summary) spoken.textContent = look.summary || "";
      const isNew = label != null && label !== look.label && look.kind !== "before";
      if (isNew && el.getBoundingClientRect().top < 0) el.scrollIntoView({block: "start"});    // on a phone it stands above the form
      label = look.label;
    };
    return follow(model, {look: redraw, waiting: () => put(waiting, model.get("waiting"))});
  },
};
