// Who throws on which line: one line of text once set, a form when opened; the lanes of the pair on top.
const WALK_WORDS = [["", "not sure (assume straight ahead)"], ["slide", "straight ahead"], ["walk", "toward the target"], ["test", "do the walk test"]];
const HOOK_WORDS = [["straight", "straight"], ["some", "some hook"], ["big", "big hook"], ["known", "I know the revs"]];

function fields(look, findStart, student) {
  const options = (names, unknown) => [["", unknown], ...names];
  const group = (title, ...nodes) => make("details", {}, make("summary", {text: title}), make("div", {class: "coach-grid-fields"}, ...nodes));
  const test = make("div", {class: "coach-walk-test"}, make("p", {class: "coach-small",
    text: "Takes two minutes. Stand on three boards, e.g. 20, 25 and 30, aim at the same target, and note the board the slide foot ends on."}),
    ...[1, 2, 3].flatMap((n) => [field(`stance_${n}`, `Stood on board (${n})`, number()), field(`slide_${n}`, `Slid to board (${n})`, number())]));
  const walk = tiles("walk", "How they walk", WALK_WORDS.map(([value, text]) => ({value, text})), {class: "coach-stack", isRequired: true});
  const hook = tiles("hook", "How much it hooks", HOOK_WORDS.map(([value, text]) => ({value, text})), {class: "coach-two"});
  const revs = field("revs", "Revs", number(), "rpm");
  const showTest = () => { test.hidden = walk.read() !== "test"; revs.hidden = hook.read() !== "known"; };
  walk.addEventListener("change", showTest);
  hook.addEventListener("change", showTest);
  const unit = choose([["mph", "mph"], ["km/h", "km/h"]]), speed = number();
  unit.onchange = () => {      // a number shown by us is turned; one just typed is taken as meant
    const known = look().speeds;
    if (known && speed.value && speed.value === known[unit.value === "mph" ? "km/h" : "mph"]) speed.value = known[unit.value];
  };
  const parts = [
    make("div", {class: "coach-first"},
      tiles("hand", "Bowling hand", [{value: "left", text: "left"}, {value: "right", text: "right"}], {class: "coach-two", isRequired: true}),
      field("feet", "Feet on board", number({placeholder: "22"})), field("target", "Target board", number({placeholder: "12"})),
      field("name", "Name or alias (may stay empty)", typedInput()), field("student", "Kept under student", student)),
    group("Lane, oil and ball",
      field("lanes", "Lane, or the two of the pair", typedInput({placeholder: "7 8"})), field("games", "Games played on this lane", number({placeholder: "0"})),
      field("pattern", "Oil pattern", choose(options(look().patterns, "I don’t know"))), field("ball", "Ball", choose(options(look().balls, "not in the list"))),
      tick("scoring_started", "Scoring has started"), tick("others", "Two or more others throw strong balls on these boards"),
      tick("feet_stuck", "The feet cannot move here (ball return, step, edge)"), tick("weather", "The hall is colder or drier than last time"), tick("approach", "The approach is sticky or wet"),
      field("own_side", "Balls from this bowler’s side of the lane", choose([["", "I don’t know"], ["quiet", "fewer than one in four"], ["busy", "one in four or more"]]))),
    group("How they throw",
      walk, test, field("stance_ft", "Stance behind the foul line", number(), "ft"), field("target_ft", "Target distance", number(), "ft"),
      field("speed", "Usual speed", speed), field("speed_unit", "Unit", unit),
      hook, revs, field("rotation", "Axis rotation (empty: I don’t know)", number(), "deg"),
      field("accuracy", "Accuracy at the arrows, range of ten balls", choose([["", "I don’t know (we take 200)"], ...look().accuracies])),
      field("spread", "or the spread as a number", number(), "boards"), tick("two_handed", "Two-handed")),
    findStart,
    group("Health and who we speak to",
      field("pain", "Pain or numbness, where?", typedInput({placeholder: "none"})), field("age", "Age (may stay empty)", number(), "years"),
      tiles("to", "We speak to", [{value: "bowler", text: "the bowler (“you”)"}, {value: "coach", text: "the coach"}], {class: "coach-two", isRequired: true})),
  ];
  return {parts, showTest};
}

export default {
  render({model, el}) {
    const look = () => model.get("look");
    const startWords = make("p", {class: "coach-small", role: "status"});
    const askStart = () => {
      startWords.textContent = "Looking for it …";
      model.send({do: "find_start", typed: readForm(form)});
    };
    const takeStart = button("", () => model.send({do: "take_start", typed: readForm(form)}));
    const findStart = make("div", {class: "coach-start"},
      button("Suggest a starting line", askStart), make("p", {class: "coach-small", text: "For this oil, this ball, speed and revs."}), startWords, takeStart);
    const student = choose([]);
    student.onchange = () => student.value && student.value !== "new" && model.send({do: "choose_student", student: student.value, typed: readForm(form)});
    const {parts, showTest} = fields(look, findStart, student);
    const turns = make("div", {class: "coach-turns", role: "group", "aria-label": "Who throws"});
    const offer = make("div", {class: "coach-offer", role: "group", "aria-label": "Last session"});
    const lanes = make("div", {class: "coach-lanes", role: "group", "aria-label": "Lane"});
    const line = make("p", {class: "coach-who"}), status = make("p", {class: "coach-status"});
    const open = button("Change", () => model.send({do: "open_form"}), {"aria-label": "Change who, line and lane"});
    const next = button("Another bowler takes turns", () => model.send({do: "another"}));
    const end = button("End", () => model.send({do: "end"}), {"aria-label": "End session"});
    const links = make("nav", {class: "coach-links", "aria-label": "Other pages"});
    const bar = make("div", {class: "coach-bar"}, turns, lanes, line, status, links, open, end);
    const save = make("button", {type: "submit", class: "coach-main"});
    const cancel = button("Cancel", () => model.send({do: "close_form"}));
    const message = make("p", {class: "coach-error", role: "alert"});
    const form = make("form", {class: "coach-setup", novalidate: true, "aria-label": "Who and line"},
      ...parts, message, make("div", {class: "coach-send"}, save, cancel, next));
    form.onsubmit = (ev) => { ev.preventDefault(); model.send({do: "set_up", typed: readForm(form)}); };
    submitOnEnter(form);
    el.replaceChildren(make("div", {}, offer, bar, form));

    const refill = () => { fillForm(form, model.get("typed")); showTest(); };
    const wrong = () => {
      showErrors(form, model.get("errors"), true);
      message.textContent = model.get("errors").form || "";
    };
    let names = "";
    const pick = (lane) => button(`Lane ${lane}`, () => model.send({do: "change_lane", lane}), {"aria-pressed": "false"});
    const showLanes = () => {        // the buttons stay while the lanes do, so that the focus is kept
      const {lanes: known = [], lane} = look();
      if (names !== known.join(" ")) lanes.replaceChildren(...known.map(pick));
      names = known.join(" ");
      [...lanes.children].forEach((node, i) => node.setAttribute("aria-pressed", known[i] === lane));
    };
    let known = "", taking = "";
    const showStudents = () => {     // the choices are kept while they are the same, so that one being made is not lost
      const {students = []} = look();
      if (known === JSON.stringify(students) && student.options.length) return;
      known = JSON.stringify(students);
      const chosen = student.value;
      student.replaceChildren(...[["", "no student"], ...students, ["new", "a new student of that name"]]
        .map(([value, text]) => make("option", {value, text})));
      student.value = model.get("typed").student || chosen || "";
    };
    const showTurns = () => {
      const {turns: taken = [], offer: offered} = look();
      turns.hidden = Boolean(offered) || taken.length < (look().is_started ? 2 : 1);
      if (taking !== JSON.stringify(taken.map(({key, words}) => [key, words])))
        turns.replaceChildren(...taken.map(({key, words}) => button(words, () => model.send({do: "turn", session: key}), {"aria-pressed": "false"})));
      taking = JSON.stringify(taken.map(({key, words}) => [key, words]));
      [...turns.children].forEach((node, i) => node.setAttribute("aria-pressed", taken[i].is_now));
    };
    let linked = "";
    const showLinks = () => {        // to the pages beside this one, in a window of their own: the lane side stays
      const {links: pages = []} = look();
      if (linked !== JSON.stringify(pages))
        links.replaceChildren(...pages.map(([words, href]) => make("a", {href, target: "_blank", rel: "noopener", text: words})));
      linked = JSON.stringify(pages);
    };
    const showAnswer = (tries = 40) => {      // the page goes on at the answer, once all of it is laid out
      const panel = el.closest(".coach");
      if (panel && !panel.classList.contains("coach-unstarted")) setTimeout(() => showTop(el), 150);
      else if (tries) setTimeout(() => showAnswer(tries - 1), 50);
    };
    const redraw = () => {
      const {is_open: isOpen, is_started: isStarted, offer: offered} = look();
      const hadFocus = form.contains(document.activeElement), wasStarted = !lanes.hidden;
      const isLost = document.activeElement === document.body || el.contains(document.activeElement);
      const isNew = (wasStarted && isLost && !isStarted) || (offer.contains(document.activeElement) && !offered);
      form.hidden = !isOpen || Boolean(offered);
      [lanes, line, status, end].forEach((node) => (node.hidden = !isStarted));
      cancel.hidden = next.hidden = !isStarted;
      open.hidden = isOpen || !isStarted;
      showLinks();
      save.textContent = isStarted ? "Save" : "Start";
      line.textContent = look().line;
      status.textContent = look().status;
      startWords.textContent = (look().start || [0, ""])[1];
      put(takeStart, (look().start || [0, "", ""])[2]);
      showLanes();
      showStudents();
      showTurns();
      if (form.hidden && hadFocus) {
        wasStarted ? open.focus({preventScroll: true}) : focusStrip(el);
        showAnswer();
      }
      if (isNew && !form.hidden) form.querySelector("input").focus({preventScroll: true});
      if (!offer.hidden && !offered && isStarted && el.clientWidth < 900) showAnswer();
      offer.hidden = !offered;
      offer.replaceChildren(...(offered ? [make("p", {text: offered.words}),
        ...offered.choices.map(({action, words}, i) => button(words, () => model.send({do: action}), {class: i ? "" : "coach-main", "data-action": action}))] : []));
    };
    model.send({do: "look_for_last"});      // a page may open long after its cell ran: is there a session to go on with?
    return follow(model, {look: redraw, typed: refill, errors: wrong});
  },
};
