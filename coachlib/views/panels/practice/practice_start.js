// A new game: who throws what on which oil, and the number of the lane; once it runs, one line of text.
const MOST_LANE_NUMBER = 999999;

export default {
  render({model, el}) {
    const look = () => model.get("look");
    const lane = typedInput({inputmode: "numeric"});
    const anyLane = button("Any lane", () => { lane.value = 1 + Math.floor(Math.random() * MOST_LANE_NUMBER); lane.focus(); });
    const numbered = field("lane_number", "Lane number (the same number is the same lane)", lane);
    numbered.querySelector(".coach-control").append(anyLane);
    const fields = make("div", {class: "coach-grid-fields"},
      field("bowler", "Bowler", choose(look().bowlers)), field("ball", "Ball to begin with", choose(look().balls)),
      field("pattern", "Oil pattern (you see its sheet)", choose(look().patterns)),
      field("n_scored", "Balls that count, after 4 practice balls", choose(look().counts)), numbered);
    const message = make("p", {class: "coach-error", role: "alert"});
    const form = make("form", {class: "coach-setup", novalidate: true, "aria-label": "New game"},
      make("p", {class: "coach-small", text: look().hidden}), fields, message,
      make("div", {class: "coach-send"}, make("button", {type: "submit", class: "coach-main", text: "Start"})));
    form.onsubmit = (ev) => { ev.preventDefault(); model.send({do: "begin", typed: readForm(form)}); };
    submitOnEnter(form);
    const line = make("p", {class: "coach-who"});
    const other = button("New game", () => ask(!look().is_sure));
    const really = make("div", {class: "coach-send", role: "group", "aria-label": "Leave this game?"},
      make("p", {class: "coach-small", text: "This game is not finished. If you leave, its balls are lost. The lane number brings the lane back."}),
      button("Leave it", () => model.send({do: "new_game"})), button("Go on", () => ask(false, true)));
    const bar = make("div", {class: "coach-bar"}, line, other, really);
    el.replaceChildren(make("div", {}, bar, form));

    const ask = (isAsked, isBack = false) => {
      really.hidden = !isAsked;
      other.hidden = isAsked;
      if (isAsked) really.querySelector("button").focus();
      else if (isBack) other.focus();
      else model.send({do: "new_game"});
    };
    const redraw = () => {
      const {is_started: isStarted} = look(), wasStarted = form.hidden;
      form.hidden = isStarted;
      bar.hidden = !isStarted;
      really.hidden = true;
      other.hidden = false;
      line.textContent = look().line;
      if (isStarted && !wasStarted) focusFeet(el);
      if (!isStarted && wasStarted) form.querySelector("select").focus();
    };
    const wrong = () => {
      showErrors(form, model.get("errors"), true);
      message.textContent = model.get("errors").form || model.get("errors").feet_low_board || "";
    };
    return follow(model, {typed: () => fillForm(form, model.get("typed")), errors: wrong, look: redraw});
  },
};

// On a small screen the game lies below: bring it into view. The form of the throw may appear a moment later; nothing is focused where a page opens on a running game.
function focusFeet(el, tries = 40) {
  if (!el.contains(document.activeElement) && document.activeElement !== document.body) return;
  const feet = el.closest(".coach")?.querySelector("[name=feet]");
  if (feet?.getClientRects().length) {
    feet.focus({preventScroll: true});
    const said = el.closest(".coach").querySelector(".coach-headline") || el;
    const isSeen = said.getBoundingClientRect().top >= 0 && feet.getBoundingClientRect().bottom <= innerHeight;
    if (!isSeen) el.scrollIntoView({block: "start"});
  } else if (tries) setTimeout(() => focusFeet(el, tries - 1), 25);
}
