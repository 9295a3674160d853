// The answer in large type, what it brings, what may be pressed, and what to look for.
export default {
  render({model, el}) {
    const text = (name) => make("p", {class: `coach-${name}`});
    const heads = {big: text("big"), label: text("small"), headline: text("headline"), sentence: text("sentence"), why: text("why"), chances: text("gain"), voices: text("small")};
    const waiting = text("waiting");
    const boxes = {look_for: told("Look for"), then: told("Next"), conflict: told("The rules disagree")};
    const mend = button("", () => model.send({do: "correct", number: model.get("look").odd_ball}));
    const oddWords = make("p"), odd = make("div", {class: "coach-wide coach-odd"}, oddWords, mend);
    const cautions = make("ul", {class: "coach-cautions", "aria-label": "Cautions"}), choices = make("div", {class: "coach-choices"});
    const general = make("ul", {"aria-label": "More cautions"}), more = make("details", {class: "coach-cautions-more"}, make("summary", {text: "More cautions"}), general);
    const back = button("", () => model.send({do: "back"}), {class: "coach-back"});
    const spoken = make("div", {role: "status", "aria-live": "polite", class: "coach-spoken"});
    const words = make("div", {class: "coach-heads"}, ...Object.values(heads), waiting, back);
    const main = make("div", {class: "coach-answer"}, words, choices);
    const rest = make("div", {class: "coach-tells"}, boxes.look_for.box, boxes.then.box, boxes.conflict.box, odd);
    el.replaceChildren(make("section", {"aria-label": "Answer"}, main, cautions, rest, more, spoken));
    let label = null;

    const showWords = (look) => {
      main.dataset.kind = look.kind;
      Object.entries(heads).forEach(([name, node]) => put(node, look[name]));
      Object.entries(boxes).forEach(([name, {words: node, box}]) => put(node, look[name], box));
      heads.headline.classList.toggle("coach-long", (look.headline || "").length > 19);
      put(oddWords, look.odd, odd);
      put(mend, look.odd_ball ? `Correct ball ${look.odd_ball}` : "");
      [[cautions, cautions, look.cautions || []], [general, more, look.general || []]].forEach(([list, shown, told]) => {
        list.replaceChildren(...told.map((caution) => make("li", {text: caution})));
        shown.hidden = !told.length;
      });
    };
    const held = (ev) => ev.repeat && ev.key === "Enter" && ev.preventDefault();      // the key that read the ball is still held down
    const showChoices = (look) => {
      const hadFocus = choices.contains(document.activeElement) || back === document.activeElement, offered = look.choices || [];
      choices.replaceChildren(...offered.map(({action, words: said, is_main: isMain}) =>
        button(said, () => model.send({do: action}), {class: isMain ? "coach-then" : "", onkeydown: held})));
      choices.hidden = !offered.length;
      put(back, look.back);
      if (hadFocus && offered.length) choices.firstElementChild.focus({preventScroll: true});
      else if (hadFocus) focusStrip(el);
    };
    const redraw = () => {
      const look = model.get("look");
      showWords(look);
      showChoices(look);
      if (spoken.textContent !== look.summary) spoken.textContent = look.summary || "";
      const isNew = label != null && label !== look.label && look.kind !== "before";
      if (isNew && el.getBoundingClientRect().top < 0) el.scrollIntoView({block: "start"});    // on a phone the answer may be scrolled away
      label = look.label;
    };
    return follow(model, {look: redraw, waiting: () => put(waiting, model.get("waiting"))});
  },
};
