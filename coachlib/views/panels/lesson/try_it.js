// Change it yourself: four controls under the answer; the lane above answers at once.
export default {
  render({model, el}) {
    const summary = make("summary", {text: "Change it yourself: feet, target, speed, oil"});
    const rows = make("div", {class: "coach-try-rows"}), answer = make("p", {class: "coach-try-answer", role: "status"});
    const pattern = choose([]), oil = field("pattern", "Oil pattern", pattern), message = make("p", {class: "coach-error", role: "alert"});
    const back = button("Back to the question", () => model.send({do: "as_asked"}));
    const box = make("details", {class: "coach-lesson-change"}, summary, rows, oil, message, answer, back);
    el.replaceChildren(box);
    pattern.onchange = () => model.send({do: "on_pattern", pattern: pattern.value});
    const row = ({name, title, text, ends}) => {
      const value = make("output", {text});
      const press = ({text: words, by}) => button(words, () => model.send({do: "change", name, by}), {"aria-label": `${title} ${words}`, "data-name": `${name} ${by}`});
      return make("div", {class: "coach-try-row", role: "group", "aria-label": title}, make("span", {text: title}), press(ends[0]), value, press(ends[1]));
    };
    const redraw = () => {
      const look = model.get("look"), pressed = rows.contains(document.activeElement) ? document.activeElement.dataset.name : "";
      box.hidden = !look.rows;
      if (!look.rows) { box.open = false; return; }
      rows.replaceChildren(...look.rows.map(row));
      if (pressed) rows.querySelector(`[data-name="${pressed}"]`)?.focus({preventScroll: true});
      if (pattern.options.length !== look.patterns.length) pattern.replaceChildren(...choose(look.patterns).options);
      pattern.value = look.pattern;
      put(answer, look.is_changed ? look.answer : "");
      back.hidden = !look.is_changed;
    };
    const wrong = () => { message.textContent = model.get("errors").form || ""; };
    return follow(model, {look: redraw, errors: wrong});
  },
};
