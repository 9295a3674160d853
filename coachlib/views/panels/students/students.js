// Which student, which session, which ball; what was seen then, what was said, and what came next.
export default {
  render({model, el}) {
    const look = () => model.get("look");
    const send = (what, more = {}) => model.send({do: what, ...more});
    const note = make("p", {class: "coach-note", role: "status"});
    const report = make("ul"), erased = make("div", {class: "coach-erased", role: "status", "aria-label": "What was erased"}, report);
    const student = choose([]), session = choose([]), owner = choose([]);
    student.onchange = () => send("pick", {student: student.value});
    session.onchange = () => send("open_session", {session: session.value});
    const message = make("p", {class: "coach-error", role: "alert"});
    const give = make("details", {class: "coach-give"}, make("summary", {text: "Whose session is this?"}),
      make("div", {class: "coach-choices"}, owner, button("Keep", () => send("give", {student: owner.value}))));
    owner.setAttribute("aria-label", "Student this session belongs to");

    const title = make("p", {class: "coach-ball-title"});
    const slider = make("input", {type: "range", min: 1, step: 1, "aria-label": "Ball of the session"});
    slider.onchange = () => send("show", {ball: Number(slider.value)});
    const step = (words, by) => button(words, () => send("show", {ball: by(look().replay)}));
    const first = step("First", () => 1), back = step("Back", (r) => r.number - 1);
    const next = step("Next", (r) => r.number + 1), last = step("Last", (r) => r.n_balls);
    const steps = make("div", {class: "coach-replay-steps", role: "group", "aria-label": "Ball by ball"}, first, back, next, last);
    const said = Object.fromEntries([["line", "Line"], ["seen", "Seen"], ["advice", "Advice then"], ["why", "Why"],
      ["chances", "Chances"], ["after", "What came next"]].map(([name, words]) => [name, told(words)]));
    const words = make("div", {class: "coach-tells", role: "status", "aria-live": "polite"}, ...Object.values(said).map((one) => one.box));
    const replay = make("section", {class: "coach-replay", "aria-label": "Ball by ball"}, title, steps, slider, words);

    el.replaceChildren(make("div", {class: "coach-desk"}, note, erased,
      make("div", {class: "coach-pair"}, field("student", "Student", student), field("session", "Session", session)),
      message, replay, give));

    const fill = (select, options, chosen) => {
      select.replaceChildren(...options.map(([value, text]) => make("option", {value, text})));
      select.value = chosen ?? "";
    };
    const redraw = () => {
      const {students = [], sessions = [], replay: ball = {}} = look();
      put(note, look().note);
      report.replaceChildren(...(look().erased || []).map((text) => make("li", {text})));
      erased.hidden = !report.children.length;
      fill(student, students, look().student);
      fill(session, sessions, look().session);
      fill(owner, [...students.filter(([key]) => key !== "nobody"), ["nobody", "no student"]], look().student);
      give.hidden = !look().session;
      replay.hidden = !look().session;
      put(title, ball.title);
      const isEmpty = !ball.number;
      slider.hidden = steps.hidden = words.hidden = isEmpty;
      if (isEmpty) return;
      slider.max = ball.n_balls;
      slider.value = ball.number;
      slider.setAttribute("aria-valuetext", ball.title);
      [first, back].forEach((one) => one.setAttribute("aria-disabled", ball.number === 1));
      [next, last].forEach((one) => one.setAttribute("aria-disabled", ball.number === ball.n_balls));
      Object.entries(said).forEach(([name, one]) => put(one.words, ball[name], one.box));
    };
    const wrong = () => (message.textContent = model.get("errors").desk || "");
    return follow(model, {look: redraw, errors: wrong});
  },
};
