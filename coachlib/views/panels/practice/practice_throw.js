// The line of the next throw, the ball in the hand, and how many are thrown on it.
export default {
  render({model, el}) {
    const look = () => model.get("look");
    const inward = (side) => (side === look().inside_side ? 1 : -1);
    const outside = () => (look().inside_side === "left" ? "right" : "left");
    const edited = new Set();      // fields changed by hand: an answer that comes late never writes over them
    let wasThrown = false;         // a wrong field takes the focus after a throw only, never while one types
    const title = make("p", {class: "coach-legend"});
    const message = make("p", {class: "coach-error", role: "alert"});
    const boards = (name, label) => {
      const input = number();
      const step = (side) => {
        const now = toNumber(input.value);
        if (now == null) return;
        input.value = toText(now + inward(side));
        edited.add(name);
        tell();
      };
      input.addEventListener("keydown", (ev) => {
        if (ev.key !== "ArrowUp" && ev.key !== "ArrowDown") return;
        ev.preventDefault();
        step(ev.key === "ArrowUp" ? look().inside_side : outside());
      });
      const box = field(name, label, input);
      box.querySelector(".coach-control").className = "coach-steps";
      // by keyboard the arrow keys do the same: Tab goes from feet to target to ball
      input.before(button("1 left", () => step("left"), {"aria-label": `${name} 1 left`, tabindex: -1}));
      input.after(button("1 right", () => step("right"), {"aria-label": `${name} 1 right`, tabindex: -1}));
      return box;
    };
    const ball = choose([]);
    const one = make("button", {type: "submit", class: "coach-main", text: "Throw one ball"});
    const many = button("", (ev) => ev.detail > 1 || send(look().n_many));     // the second half of a double click is none
    const undo = button("Undo", () => {
      edited.clear();
      model.send({do: "undo"});
    });
    const form = make("form", {class: "coach-entry coach-throw", novalidate: true, "aria-label": "Next throw"},
      title, boards("feet", "Feet on board"), boards("target", "Target board"), field("ball", "Ball", ball), message,
      make("div", {class: "coach-send"}, one, many, undo),
      make("p", {class: "coach-small", text: "Change the line as often as you like. Undo takes a change back. A thrown ball stays thrown."}));
    const trend = trendChart();
    el.replaceChildren(make("div", {class: "coach-throw-and-trend"}, form, trend.box));
    const send = (n_balls) => {
      wasThrown = true;
      model.send({do: "throw", typed: readForm(form), n_balls, n_thrown: look().n_thrown});
    };
    const tell = () => {
      wasThrown = false;
      model.send({do: "move", typed: readForm(form)});
    };
    form.onsubmit = (ev) => { ev.preventDefault(); send(1); };
    form.addEventListener("change", tell);
    form.addEventListener("input", (ev) => edited.add(ev.target.name));
    form.addEventListener("keydown", (ev) => {      // a key held down throws once
      if (ev.key === "Enter" && ev.repeat) { ev.preventDefault(); ev.stopPropagation(); }
    }, true);
    submitOnEnter(form);

    const redraw = () => {
      const focused = document.activeElement, hadFocus = form.contains(focused);
      const {is_over: isOver, title: words, n_many: nMany, many_text: manyText, balls = []} = look();
      if (ball.options.length !== balls.length) {
        ball.replaceChildren(...choose(balls).options);
        ball.value = model.get("typed").ball || "";
      }
      title.textContent = words;
      form.hidden = isOver;
      put(many, nMany ? manyText : "");
      if (hadFocus && isOver) el.closest(".coach")?.querySelector(".coach-practice-seen")?.focus();
      else if (focused === many && many.hidden) one.focus({preventScroll: true});
    };
    const wrong = () => {
      const errors = model.get("errors");
      showErrors(form, errors, wasThrown);
      message.textContent = errors.form || errors.line || "";
    };
    // What was sent comes back as `typed` and is not written again; only a new game and an undo fill the form.
    const refill = () => {
      const {answers, is_new: isNew} = model.get("filled");
      if (isNew) edited.clear();
      if (answers) fillForm(form, {...answers, ...Object.fromEntries([...edited].map((name) => [name, readForm(form)[name]]))});
    };
    const stop = follow(model, {look: redraw, filled: refill, errors: wrong, trend: () => trend.show(model.get("trend"))});
    fillForm(form, model.get("typed"));
    return stop;
  },
};
