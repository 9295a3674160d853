// What was seen of one ball. The fields are the only state; strip and deck are drawn from them.
const N_BOARDS = 9;
const ROWS = [[7, 8, 9, 10], [4, 5, 6], [2, 3], [1]];

function crossing(look, touched) {
  const box = make("div", {class: "coach-crossing", "data-field": "crossed", role: "group"});
  const words = make("span", {class: "coach-said"});
  const input = number({name: "crossed", placeholder: "board", "aria-label": "Crossing, board number"});
  const strip = draw("svg", {class: "coach-strip", role: "slider", tabindex: 0, "aria-valuemin": 0, "aria-valuemax": 40});
  const title = make("span", {class: "coach-legend", id: uid("crossing")});
  const message = make("p", {class: "coach-error", id: uid("message")});
  const step = {left: button("½ left", () => nudge("left", 0.5)), right: button("½ right", () => nudge("right", 0.5))};
  box.setAttribute("aria-labelledby", title.id);
  strip.setAttribute("aria-labelledby", title.id);
  box.append(make("div", {class: "coach-head"}, title, words), strip,
    make("div", {class: "coach-steps"}, step.left, input, step.right), message);
  box.words = () => (at() == null ? "" : toText(at()));
  let centre = null, target = null, pressed = null;
  const at = () => toNumber(input.value);
  const inward = (side) => (side === look().inside_side ? 1 : -1);
  const clamp = (board, low, high) => Math.min(high, Math.max(low, board));
  const set = (board, isSettled = true) => {
    touched();
    input.value = toText(clamp(board, 0, 40));
    box.redraw(isSettled);
    changed();
  };
  const nudge = (side, boards) => { touched(); set((at() ?? look().target_board) + inward(side) * boards); };
  const changed = () => input.dispatchEvent(new Event("change", {bubbles: true}));
  const leftmost = () => centre + 4 * inward("left");
  const boardAt = (x) => {
    const place = strip.getBoundingClientRect();
    return Math.round(2 * (leftmost() - inward("left") * ((N_BOARDS * (x - place.left)) / place.width - 0.5))) / 2;
  };
  strip.onpointerdown = (ev) => { pressed = ev.clientX; strip.setPointerCapture(ev.pointerId); };
  strip.onpointermove = (ev) => { if (pressed != null && Math.abs(ev.clientX - pressed) > 3) set(boardAt(ev.clientX), false); };
  strip.onpointerup = (ev) => { if (pressed != null) { pressed = null; set(boardAt(ev.clientX)); } };
  strip.onpointercancel = () => { pressed = null; };
  strip.onkeydown = (ev) => {
    const moves = {ArrowLeft: ["left", 0.5], ArrowRight: ["right", 0.5], PageUp: [look().inside_side, 2], ArrowUp: [look().inside_side, 0.5]};
    const outside = look().inside_side === "left" ? "right" : "left";
    Object.assign(moves, {PageDown: [outside, 2], ArrowDown: [outside, 0.5]});
    if (moves[ev.key]) nudge(...moves[ev.key]);
    else if (ev.key === "Home") set(look().target_board);
    else if (/^[\d.,]$/.test(ev.key) && !ev.ctrlKey && !ev.metaKey && !ev.altKey) {
      input.value = "";
      input.focus();                // before the key writes its digit
      return;
    } else if (ev.key === "Delete" || ev.key === "Backspace") { touched(); input.value = ""; box.redraw(); changed(); }
    else return;
    ev.preventDefault();
  };
  input.oninput = () => box.redraw();

  // the strip scrolls by itself when the mark nears an end, but not under a finger
  const recentre = (board) => {
    const isMoved = target !== look().target_board;
    target = look().target_board;
    if (isMoved || board == null) centre = clamp(Math.round(target), 4, 36);
    if (board != null && Math.abs(board - centre) > 3.5) centre = clamp(Math.round(board), 4, 36);
  };
  box.redraw = (isSettled = true) => {
    const board = at(), {target_ft: ft, inside_side: inside, arrows} = look();
    if (isSettled) recentre(board);
    const side = {1: inside, "-1": inside === "left" ? "right" : "left"};
    const off = board == null ? 0 : board - target;
    title.textContent = `Tap where it crossed, ${toText(ft)} ft`;
    words.textContent = board == null ? "" : off === 0 ? `${toText(board)}, on target`
      : `${toText(board)}, ${toText(Math.abs(off))} ${side[Math.sign(off)]} of target`;
    strip.setAttribute("aria-valuenow", board ?? target);
    strip.setAttribute("aria-valuetext", board == null ? "not marked" : words.textContent);
    drawStrip(strip, leftmost(), -inward("left"), target, board, arrows);
  };
  return box;
}

// 36 units a board; the first board as seen from the left, and which way the numbers run
function drawStrip(strip, first, way, target, board, arrows) {
  strip.setAttribute("viewBox", `0 0 ${36 * N_BOARDS} 66`);
  const parts = [];
  const x = (b) => 36 * ((b - first) * way + 0.5);
  for (let i = 0; i < N_BOARDS; i += 1) {
    const b = first + way * i, isTarget = b === target;      // a half board lies between two cells: the diamond alone shows it
    parts.push(draw("rect", {x: 36 * i + 0.5, y: 0.5, width: i + 1 < N_BOARDS ? 36 : 35, height: 45, class: isTarget ? "coach-cell coach-at" : "coach-cell"}));
    if (arrows.includes(b)) parts.push(draw("path", {d: `M${x(b)} 6l5 10h-10z`, class: "coach-arrow"}));
    parts.push(draw("text", {x: x(b), y: 62, text: b, class: isTarget ? "coach-tick-no coach-at" : "coach-tick-no"}));
  }
  parts.push(draw("path", {d: `M${x(target)} 4l8 8-8 8-8-8z`, class: "coach-diamond"}));
  if (board != null && Math.abs(board - first - way * 4) <= 4.5) {
    parts.push(draw("path", {d: `M${x(board)} 0V46`, class: "coach-mark"}), draw("circle", {cx: x(board), cy: 33, r: 9, class: "coach-dot"}));
  }
  strip.replaceChildren(...parts);
}

function arrivals(look) {
  const options = look().arrivals.map(({key, word, name, across_in, along_in}) => ({
    value: key, text: word, title: name,
    picture: draw("svg", {viewBox: "-16 -6 32 17", "aria-hidden": "true", class: "coach-ball-on-pin"},
      draw("circle", {r: 2.4, class: "coach-pin-top"}), draw("circle", {cx: across_in, cy: along_in, r: 4.3, class: "coach-ball"})),
  }));
  return tiles("arrival", "Tap how it hit", options, {class: "coach-arrivals"});
}

function deck(touched) {
  const title = make("span", {class: "coach-legend", id: uid("pins"), text: "Tap the pins left"});
  const input = typedInput({name: "leave", placeholder: "4 9", "aria-label": "Pins left, typed", class: "coach-pins-typed"});
  const message = make("p", {class: "coach-error", id: uid("message")});
  const write = (text) => { input.value = text; box.redraw(); input.dispatchEvent(new Event("change", {bubbles: true})); };
  const standing = () => (/^[\d\s,;.+/–-]*$/.test(input.value) ? input.value.split(/\D+/).filter(Boolean).map(Number) : []);
  const toggle = (pin) => {
    const now = new Set(standing());
    now.delete(pin) || now.add(pin);
    write([...now].sort((a, b) => a - b).join(" "));
  };
  const pins = ROWS.flatMap((row, y) => row.map((pin, i) => {
    const box = make("input", {type: "checkbox", "aria-label": `pin ${pin}`, onchange: () => toggle(pin)});
    const style = `grid-row:${y + 1};grid-column:${y + 1 + 2 * i} / span 2`;
    return {pin, box, node: make("label", {class: "coach-pin", style}, box, make("span", {text: pin}))};
  }));
  const say = (text) => button(text, () => { touched(); write(input.value === text ? "" : text); }, {class: "coach-all"});
  const all = say("all down"), none = say("not seen");
  const grid = make("div", {class: "coach-deck"}, ...pins.map(({node}) => node), all, none, input,
    make("span", {class: "coach-said", text: "tap or type"}));
  const box = make("div", {"data-field": "leave", role: "group", "aria-labelledby": title.id, class: "coach-pins"},
    title, grid, message);
  grid.onkeydown = (ev) => {
    if (ev.target === input || !/^\d$/.test(ev.key) || ev.ctrlKey || ev.metaKey || ev.altKey) return;
    ev.preventDefault();
    toggle(ev.key === "0" ? 10 : Number(ev.key));
  };
  box.redraw = () => {
    const now = standing(), text = input.value.trim().toLowerCase();
    pins.forEach(({pin, box: pinBox}) => (pinBox.checked = now.includes(pin)));
    all.setAttribute("aria-pressed", ["all down", "all", "strike", "x", "0"].includes(text));
    none.setAttribute("aria-pressed", ["not seen", "?"].includes(text));
  };
  input.oninput = () => box.redraw();
  return box;
}

function more(look) {
  const pair = (...fields) => make("div", {class: "coach-pair"}, ...fields);
  const unit = field("speed_unit", "Unit", choose([["mph", "mph"], ["km/h", "km/h"]]));
  return make("details", {class: "coach-more"},
    make("summary", {text: "More: turn, speed, breakpoint, note"}),
    field("arrival_board", "Or type the board it hit", number()),
    tiles("motion", "How it turned", look().motions.map(([value, text]) => ({value, text})), {class: "coach-three"}),
    pair(field("speed", "Speed at the hand", number()), unit),
    pair(field("breakpoint_board", "Turned at board", number()), field("breakpoint_ft", "Turned at", number(), "ft")),
    pair(field("start_board", "Stood on board", number()), field("slide_board", "Slid to board", number())),
    tiles("hit", "The last pin", look().hits.map(([value, text]) => ({value, text})), {class: "coach-two"}),
    field("note", "Note", typedInput({maxlength: 200})));
}

const PANELS = [["crossed", "Crossed"], ["arrival", "How it hit"], ["leave", "Pins left"], ["more", "More"]];

// On a phone one part of the form is shown at a time; each tab says what is marked there. Wider panels show all and no tabs.
function tabs(form, choose) {
  const nodes = PANELS.map(([name, text]) => {
    const value = make("span", {class: "coach-small"});
    return {name, value, node: make("button", {type: "button", "data-tab": name, "aria-pressed": "false", onclick: () => choose(name)}, make("span", {text}), value)};
  });
  const show = (active, values) => {
    form.dataset.tab = active;
    nodes.forEach(({name, node, value}) => {
      node.setAttribute("aria-pressed", name === active);
      value.textContent = values[name] || "";
    });
  };
  return {node: make("div", {class: "coach-tabs", role: "group", "aria-label": "What to mark"}, ...nodes.map(({node}) => node)), show};
}

export default {
  render({model, el}) {
    const look = () => model.get("look");
    const body = make("div", {class: "coach-seen"});
    let hand = null, corrected = null, tab = "crossed", strip, hits, pins, extra;
    const title = make("p", {class: "coach-legend"}), note = make("p", {class: "coach-small"});
    const message = make("p", {class: "coach-error coach-form-error", role: "alert"});
    const wasSpare = tick("is_spare", "This was a spare ball");
    const send = make("button", {type: "submit", class: "coach-read"});
    const other = button("", () => model.send({do: look().correcting ? "cancel" : "undo"}));
    const pass = button("Next first ball", () => model.send({do: "pass_spare"}), {class: "coach-read"});
    const askSpare = button("Back to the spare", () => model.send({do: "ask_spare"}), {class: "coach-link"});
    const spare = spareQuestion(model);
    const choose = (name) => { tab = name; message.textContent = ""; if (name === "more") extra.open = true; showTabs(); };
    const form = make("form", {class: "coach-entry", novalidate: true, "aria-label": "What you saw"});
    const tabBar = tabs(form, choose);
    form.append(title, tabBar.node, body, spare.node, message, make("div", {class: "coach-send"}, send, pass, other), make("div", {class: "coach-note"}, note, askSpare));
    submitOnEnter(form);
    el.replaceChildren(form);

    const showTabs = () => {
      const met = look().arrivals?.find(({key}) => key === hits.read())?.word || form.querySelector("[name=arrival_board]").value;
      const speed = form.querySelector("[name=speed]").value;
      tabBar.show(tab, {crossed: strip.words(), arrival: met, leave: form.querySelector("[name=leave]").value, more: speed});
    };
    const save = () => { model.set("typed", readForm(form)); model.save_changes(); };
    const redraw = () => { strip.redraw(); pins.redraw(); showTabs(); };
    const fill = (answers) => { fillForm(form, {speed_unit: look().speed_unit, ...answers}); redraw(); };
    const clear = () => {           // the ball just read stays on the screen until the first tap for the next one
      if (!model.get("stale")) return false;
      model.set({stale: false, errors: {}});
      fill({});
      save();
      describe();
      return true;
    };
    const build = () => {           // again for the other hand, whose lane is seen from the other side
      const answers = hand ? readForm(form) : model.get("typed");
      const wasOpen = hand ? extra.open : model.get("more_open");
      hand = look().inside_side;
      strip = crossing(look, clear);
      hits = arrivals(look);
      pins = deck(clear);
      extra = more(look);
      extra.open = wasOpen;
      extra.ontoggle = () => { model.set("more_open", extra.open); model.save_changes(); };
      [strip, hits, pins, extra].forEach((part, i) => (part.dataset.panel = PANELS[i][0]));
      body.replaceChildren(wasSpare, strip, hits, pins, extra);
      fill(answers);
    };
    const describe = () => {
      const {correcting, ball: next, lane, spare: asked} = look(), isStale = model.get("stale");
      title.hidden = wasSpare.hidden = !correcting;
      title.textContent = correcting ? `Correct ball ${correcting}, lane ${lane}` : "";
      body.hidden = send.hidden = tabBar.node.hidden = Boolean(asked);
      pass.hidden = !asked;
      askSpare.hidden = !look().can_ask_spare || Boolean(correcting);
      note.textContent = asked ? `Ball ${next - 1} is read.` : isStale ? `Ball ${next - 1} is read. Your next tap starts ball ${next}.`
        : correcting ? "" : `Ball ${next}, lane ${lane}`;
      send.textContent = correcting ? `Save ball ${correcting}` : "Read this shot";
      send.classList.toggle("coach-main", !isStale);
      other.textContent = correcting ? "Cancel" : "Undo";
      form.classList.toggle("coach-stale", isStale);
    };
    // After a ball is read: to the spare if pins are left, to the move if one is offered, else to the next ball.
    const goOn = () => {
      if (look().spare) return spare.focus();
      const offered = el.closest(".coach")?.querySelector(".coach-choices:not([hidden]) button");
      (offered || strip.querySelector("svg")).focus({preventScroll: true});
    };
    body.addEventListener("click", (ev) => {
      const node = ev.target, isBox = node.matches("input[type=checkbox], input[type=radio]");
      if (node.closest("summary, [name=speed_unit], label[for]") || node.closest(".coach-steps button, .coach-all, [role=slider]")) return;
      if (clear() && isBox) node.checked = true;
    }, true);
    body.addEventListener("keydown", (ev) => {
      if (ev.target.closest("summary, select") || ev.ctrlKey || ev.metaKey || ev.altKey) return;
      if (ev.key.length === 1 || /^(Arrow|Page|Home|Delete|Backspace)/.test(ev.key)) clear();
    }, true);
    body.addEventListener("input", (ev) => {        // dictated or pasted: no key, no tap
      const {value} = ev.target;
      if (ev.target.type === "text" && clear()) ev.target.value = value;
    }, true);
    form.addEventListener("change", (ev) => {
      const board = form.querySelector("[name=arrival_board]");
      if (ev.target === board && board.value) hits.write("");       // the last one said holds
      if (hits.contains(ev.target) && hits.read()) {
        board.value = "";
        if (tabBar.node.getClientRects().length && ev.target.dataset.byPointer) tab = "leave";    // the next thing to mark
      }
      if (body.contains(ev.target)) { message.textContent = ""; save(); }      // on a phone it takes room from the form
      showTabs();
    });
    body.addEventListener("pointerdown", (ev) => {
      const tile = ev.target.closest(".coach-arrivals .coach-tile input");
      if (tile) tile.dataset.byPointer = "yes";
    }, true);
    form.onsubmit = (ev) => {
      ev.preventDefault();
      const {correcting, ball, spare: asked} = look(), typed = readForm(form);
      if (asked) return;
      if (correcting) model.send({do: "save", number: correcting, typed});
      else model.send({do: "read", ball: model.get("stale") ? ball - 1 : ball, typed});   // a second tap is no second ball
    };
    const wrong = () => {
      const errors = model.get("errors"), first = form.querySelector(Object.keys(errors).map((name) => `[data-field="${name}"]`).join() || "none");
      const panel = first?.closest("[data-panel]");
      if (panel) choose(panel.dataset.panel);
      showErrors(form, errors, true);
      message.textContent = errors.form || "";
      if (panel && tabBar.node.getClientRects().length) first.querySelector(".coach-error")?.scrollIntoView({block: "nearest"});   // the dock scrolls inside
    };
    const refill = () => {
      const told = model.get("typed");
      if (JSON.stringify(told) !== JSON.stringify(readForm(form))) fill(told);
    };
    let answered = null;             // the ball that was answered last, so that the focus goes on once a ball
    const relook = () => {
      const {correcting, ball} = look(), hadFocus = form.contains(document.activeElement);
      if (hand !== look().inside_side) build();
      const isAsked = spare.show(look().spare);
      if (!look().spare) spare.clear();
      redraw();
      describe();
      if (correcting && correcting !== corrected) strip.querySelector("svg").focus();
      else if (hadFocus && answered !== null && (answered !== ball || isAsked)) { tab = "crossed"; showTabs(); setTimeout(goOn, 0); }
      corrected = correcting;
      answered = ball;
    };
    const once = (step) => () => look().arrivals && step();     // nothing is known before a session runs
    return follow(model, {look: once(relook), typed: once(refill), stale: once(describe), errors: once(wrong)});
  },
};
