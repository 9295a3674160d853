// A score sheet by taps: tap the pins that stand, or "Strike", or "Spare". Digits switch pins, Enter enters the ball.
const ROWS = [[7, 8, 9, 10], [4, 5, 6], [2, 3], [1]];

export default {
  render({model, el}) {
    const look = () => model.get("look");
    let standing = new Set();
    const enter = (pins) => { standing = new Set(); model.send({do: "ball", pins}); };
    const name = make("p", {class: "coach-title"}), title = make("p", {class: "coach-ball-title", role: "status"});
    const cells = Array.from({length: 10}, (_, at) => ({marks: make("td"), sum: make("td")}));
    const table = make("table", {class: "coach-frames"}, make("caption", {text: "Score sheet"}),
      make("thead", {}, make("tr", {}, make("th", {scope: "row", text: "Frame"}), ...cells.map((_, at) => make("th", {scope: "col", text: at + 1})))),
      make("tbody", {}, make("tr", {}, make("th", {scope: "row", text: "Balls"}), ...cells.map((one) => one.marks)),
        make("tr", {}, make("th", {scope: "row", text: "Sum"}), ...cells.map((one) => one.sum))));
    const wide = make("div", {class: "coach-wide", tabindex: 0, role: "group", "aria-label": "Score sheet"}, table);

    const toggle = (pin) => {
      if (!look().pins.includes(pin)) return;
      standing.has(pin) ? standing.delete(pin) : standing.add(pin);
      showPins();
    };
    const pins = new Map(ROWS.flat().map((pin) => [pin, button(String(pin), () => toggle(pin), {class: "coach-sheet-pin", "aria-label": `pin ${pin}`, "aria-pressed": "false"})]));
    const deck = make("div", {class: "coach-sheet-deck", role: "group", "aria-label": "Pins that stand after this ball"},
      ...ROWS.map((row) => make("div", {}, ...row.map((pin) => pins.get(pin)))));
    deck.onkeydown = (ev) => {
      if (ev.ctrlKey || ev.metaKey || ev.altKey || !/^\d$/.test(ev.key)) return;
      ev.preventDefault();
      toggle(Number(ev.key) || 10);
    };
    const all = button("Strike", () => enter([]), {class: "coach-main"});
    const these = button("Enter these pins", () => standing.size && enter([...standing]));
    const none = button("None fell", () => enter(look().pins));
    const undo = button("Take back", () => { standing = new Set(); model.send({do: "take_back"}); });
    const fresh = button("New game", () => { standing = new Set(); model.send({do: "new_game"}); });
    const choices = make("div", {class: "coach-choices"}, all, these, none, undo, fresh);
    const best = make("p", {class: "coach-small"}), note = make("p", {class: "coach-care"});
    const message = make("p", {class: "coach-error", role: "alert"});
    el.replaceChildren(make("section", {class: "coach-score", "aria-label": "Score sheet by taps"}, name, wide, title, deck, choices, best, note, message));

    const showPins = () => {
      const can = look().pins || [];
      pins.forEach((node, pin) => {
        node.setAttribute("aria-disabled", !can.includes(pin));
        node.setAttribute("aria-pressed", standing.has(pin));
      });
      these.setAttribute("aria-disabled", !standing.size);
    };
    const redraw = () => {
      const now = look();
      put(name, now.name);
      put(title, now.title);
      put(best, now.best);
      put(note, now.note);
      cells.forEach((one, at) => {
        one.marks.textContent = now.frames[at]?.marks || "";
        one.sum.textContent = now.frames[at]?.sum || "";
      });
      all.textContent = now.all_down || "Strike";
      deck.hidden = all.hidden = these.hidden = none.hidden = Boolean(now.is_over) || !(now.pins || []).length;
      undo.hidden = !now.can_undo;
      showPins();
    };
    const wrong = () => (message.textContent = model.get("errors").sheet || "");
    return follow(model, {look: redraw, errors: wrong});
  },
};
