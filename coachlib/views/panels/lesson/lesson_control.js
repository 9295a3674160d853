// The bet: one of some answers, or a number by buttons, arrow keys or on the lane; then what comes next.
const BET = "coach-bet";

export default {
  render({model, el}) {
    const look = () => model.get("look");
    let value = null, asked = "";
    const root = () => el.closest(".coach");
    const send = (what) => model.send(what);
    const choices = make("div", {class: "coach-lesson-choices", role: "group", "aria-label": "Your answer"});
    const slider = make("div", {role: "slider", tabindex: 0, class: "coach-lesson-value", "aria-label": "Your bet"});
    const less = button("", () => step(0)), more = button("", () => step(1)), hint = make("p", {class: "coach-small coach-lesson-hint"});
    const bet = button("", () => send({do: "bet", answer: value}), {class: "coach-main"});
    const number = make("div", {class: "coach-lesson-number"}, hint, make("div", {class: "coach-lesson-steps"}, less, slider, more), bet);
    const skip = button("Skip: show me", () => send({do: "skip"}), {class: "coach-lesson-link"});
    const back = button("Back", () => send({do: "back"}), {class: "coach-lesson-link"});
    const again = button("Bet again", () => send({do: "again"}));
    const next = button("", () => send({do: "forward"}), {class: "coach-main"});
    const hand = button("", () => send({do: "hand", hand: look().other_hand}), {class: "coach-lesson-link"});
    const print = button("Handout to print", () => send({do: "handout"}), {class: "coach-lesson-link"}), saved = make("p", {class: "coach-small", role: "status"});
    const message = make("p", {class: "coach-error", role: "alert"});
    const wrongIdea = make("p", {class: "coach-lesson-wrong"}), from = make("p", {class: "coach-small"});
    const beside = make("div", {class: "coach-lesson-beside"}, wrongIdea, from);
    const after = make("div", {class: "coach-lesson-after"}, back, again, skip, next);
    el.replaceChildren(make("div", {class: "coach-lesson-control"}, choices, number, message, make("div", {class: "coach-lesson-foot"}, beside, after), make("div", {class: "coach-lesson-links"}, hand, print, saved)));

    const tell = () => document.dispatchEvent(new CustomEvent(BET, {detail: {value, root: root()}}));
    const show = () => {
      const {unit = ""} = look().number || {}, said = `${toText(value)}${unit}`;
      slider.textContent = said;
      bet.textContent = `Bet on ${said}`;
      slider.setAttribute("aria-valuenow", value);
      slider.setAttribute("aria-valuetext", said);
    };
    const change = (to) => {
      const {low, high} = look().number;
      value = Math.min(high, Math.max(low, to));
      show();
      tell();
    };
    const step = (end) => change(value + look().number.ends[end].by);
    slider.addEventListener("keydown", (ev) => {
      const {low, high, ends, step: size} = look().number || {};
      const to = {ArrowLeft: () => value + ends[0].by, ArrowRight: () => value + ends[1].by, ArrowUp: () => value + size,
        ArrowDown: () => value - size, Home: () => low, End: () => high, PageUp: () => value + 4 * size, PageDown: () => value - 4 * size}[ev.key];
      if (ev.key === "Enter") { ev.preventDefault(); bet.click(); return; }
      if (!to) return;
      ev.preventDefault();
      change(to());
    });
    const heard = ({detail}) => {
      if (detail.root !== root() || !look().number || !look().is_open || detail.value === value) return;
      value = detail.value;
      show();
    };
    document.addEventListener(BET, heard);

    const choice = ({id, text, mark}) => {
      const words = {answer: "the answer", half: "half correct", "answer chosen": "your answer, correct", "half chosen": "your answer, half correct", chosen: "your answer"}[mark];
      const node = button(text, () => send({do: "bet", answer: id}), {"data-mark": mark || null, disabled: !look().is_open});
      if (words) node.append(make("span", {class: "coach-small", text: words}));
      return node;
    };
    const redraw = () => {
      const now = look(), isNumber = Boolean(now.number), key = `${now.part} ${now.at} ${now.is_open}`, isNew = key !== asked;
      const hadFocus = el.contains(document.activeElement);
      choices.replaceChildren(...(now.choices || []).map(choice));
      choices.hidden = !(now.choices || []).length;
      number.hidden = !isNumber || !now.is_open;
      if (isNumber) {
        less.textContent = now.number.ends[0].text;
        more.textContent = now.number.ends[1].text;
        put(hint, now.number.hint);
        slider.setAttribute("aria-valuemin", now.number.low);
        slider.setAttribute("aria-valuemax", now.number.high);
        if (isNew) value = now.number.start;
        show();
      }
      back.hidden = !now.can_go_back;
      skip.hidden = !now.is_open;
      again.hidden = now.is_open || now.part === "recap" || now.part === "done";
      next.hidden = now.is_open;
      next.textContent = now.next;
      put(hand, now.hand_text);
      print.hidden = !now.can_print;
      put(wrongIdea, now.wrong_idea);
      put(from, now.from);
      if (isNew && asked && hadFocus) (now.is_open ? (isNumber ? slider : choices.querySelector("button")) : next)?.focus({preventScroll: true});
      if (isNew && asked) showHead();
      asked = key;
    };
    // A new question or an answer stands above the lane: bring it back where it is out of sight.
    const showHead = () => setTimeout(() => {
      const panel = el.closest(".coach"), block = panel?.querySelector(".coach-lesson-block");
      if (block && block.getBoundingClientRect().top < 0) panel.scrollIntoView({block: "start"});
    }, 50);
    const wrong = () => { message.textContent = model.get("errors").form || ""; };
    let lastNumber = model.get("file").number || 0;
    const save = () => {
      const file = model.get("file");
      if ((file.number || 0) === lastNumber) return;
      lastNumber = file.number;
      saveFile(file);
      put(saved, file.told);
    };
    const stop = follow(model, {look: redraw, errors: wrong, file: save});
    return () => { stop(); document.removeEventListener(BET, heard); };
  },
};
