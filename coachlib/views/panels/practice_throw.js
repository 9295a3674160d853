// The line of the next throw, the ball in the hand, and how many are thrown on it.
export default {
  render({model, el}) {
    const look = () => model.get("look");
    const inward = (side) => (side === look().inside_side ? 1 : -1);
    const outside = () => (look().inside_side === "left" ? "right" : "left");
    const title = make("p", {class: "coach-legend"});
    const message = make("p", {class: "coach-error", role: "alert"});
    const boards = (name, label) => {
      const input = number();
      const step = (side) => {
        const now = toNumber(input.value);
        if (now == null) return;
        input.value = toText(now + inward(side));
        tell();
      };
      input.addEventListener("keydown", (ev) => {
        if (ev.key !== "ArrowUp" && ev.key !== "ArrowDown") return;
        ev.preventDefault();
        step(ev.key === "ArrowUp" ? look().inside_side : outside());
      });
      const box = field(name, label, input);
      box.querySelector(".coach-control").className = "coach-steps";
      input.before(button("1 left", () => step("left"), {"aria-label": `${name} 1 left`}));
      input.after(button("1 right", () => step("right"), {"aria-label": `${name} 1 right`}));
      return box;
    };
    const ball = choose([]);
    const one = make("button", {type: "submit", class: "coach-main", text: "Throw one ball"});
    const many = button("", (ev) => ev.detail > 1 || send(look().n_many));     // the second half of a double click is none
    const undo = button("Undo", () => model.send({do: "undo"}));
    const form = make("form", {class: "coach-entry coach-throw", novalidate: true, "aria-label": "Next throw"},
      title, boards("feet", "Feet on board"), boards("target", "Target board"), field("ball", "Ball", ball), message,
      make("div", {class: "coach-send"}, one, many, undo),
      make("p", {class: "coach-small", text: "Change the line as often as you like; Undo takes a change back. A thrown ball stays thrown."}));
    const trend = trendChart();
    el.replaceChildren(make("div", {class: "coach-throw-and-trend"}, form, trend.box));
    const send = (n_balls) => model.send({do: "throw", typed: readForm(form), n_balls, n_thrown: look().n_thrown});
    const tell = () => model.send({do: "move", typed: readForm(form)});
    form.onsubmit = (ev) => { ev.preventDefault(); send(1); };
    form.addEventListener("change", tell);
    form.addEventListener("keydown", (ev) => {      // a key held down throws once
      if (ev.key === "Enter" && ev.repeat) { ev.preventDefault(); ev.stopPropagation(); }
    }, true);
    submitOnEnter(form);

    const redraw = () => {
      const focused = document.activeElement, hadFocus = form.contains(focused);
      const {is_over: isOver, title: words, n_many: nMany, many_text: manyText, balls = []} = look();
      if (ball.options.length !== balls.length) ball.replaceChildren(...choose(balls).options);
      fillForm(form, model.get("typed"));
      title.textContent = words;
      form.hidden = isOver;
      put(many, nMany ? manyText : "");
      if (hadFocus && isOver) el.closest(".coach")?.querySelector(".coach-practice-seen")?.focus();
      else if (focused === many && many.hidden) one.focus({preventScroll: true});
    };
    const wrong = () => {
      const errors = model.get("errors");
      showErrors(form, errors, true);
      message.textContent = errors.form || errors.line || "";
    };
    const refill = () => fillForm(form, model.get("typed"));
    return follow(model, {look: redraw, typed: refill, errors: wrong, trend: () => trend.show(model.get("trend"))});
  },
};
