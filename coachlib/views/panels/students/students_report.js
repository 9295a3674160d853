// What the sessions show, one thing to work on, the bowler's own numbers, and the handout.
const SHEETS = [["A4", "A4"], ["letter", "letter"]];

function trends(look) {
  const heads = look.heads.map(([name, unit]) => make("th", {scope: "col"}, name, unit ? make("span", {class: "coach-unit", text: ` ${unit}`}) : null));
  const cell = (text, i) => (i ? make("td", {"data-title": look.heads[i][0], text}) : make("th", {scope: "row", text}));
  const rows = look.rows.map((row) => make("tr", {}, ...row.map(cell)));
  const drawn = !look.chart ? make("p", {class: "coach-small", text: "Drawing the figures …"}) :
    make("div", {class: "coach-wide", tabindex: 0, role: "group", "aria-label": "Figures, drawn"},
      make("img", {class: "coach-chart", src: look.chart, alt: look.chart_words}),
      make("img", {class: "coach-chart coach-tall", src: look.tall_chart, alt: look.chart_words}));
  return [
    drawn,
    make("div", {class: "coach-wide", tabindex: 0, role: "group", "aria-label": "Figures, session by session"},
      make("table", {class: "coach-table coach-trends"}, make("caption", {text: "Session by session, the newest first"}),
        make("thead", {}, make("tr", {}, ...heads)), make("tbody", {}, ...rows))),
  ];
}

export default {
  render({model, el}) {
    const look = () => model.get("look");
    const send = (what, more = {}) => model.send({do: what, ...more});
    const section = (title, ...parts) => make("section", {"aria-label": title}, make("p", {class: "coach-heading", text: title}), ...parts);
    const wrong = Object.fromEntries(["about", "numbers", "handout"].map((name) => [name, make("p", {class: "coach-error", role: "alert"})]));
    const saved = Object.fromEntries(["about", "handout"].map((name) => [name, make("p", {class: "coach-status", role: "status"})]));

    const figures = make("div", {class: "coach-figures"});
    const work = {headline: make("p", {class: "coach-work"}), why: make("p"), drill: told("Drill"), marked: told("Done when"),
      takes: make("p", {class: "coach-small"}), caution: make("p", {class: "coach-care"})};

    const list = make("fieldset", {class: "coach-numbers"}, make("legend", {text: "What your balls show"}));
    const used = make("p", {class: "coach-status", role: "status"});
    const ask = button("Work out the numbers", () => send("ask_numbers"));
    const chosen = () => [...list.querySelectorAll("input:checked")].map((box) => box.name);
    const use = button("Use these", () => send("use_numbers", {fields: chosen()}), {class: "coach-then"});
    list.onchange = () => (use.hidden = !chosen().length);

    const scores = tick("scores", "With strikes, pins and spares");
    const coach = typedInput(), place = typedInput(), sheet = choose(SHEETS), own = typedInput(), next = typedInput(), bring = typedInput();
    const who = tiles("for", "Who it is for", [{value: "student", text: "the student: lane notes"}, {value: "parent", text: "the parents: a letter"}], {class: "coach-two"});
    const ofStudent = [scores, field("place", "Place (may stay empty)", place)];
    const ofParents = [field("own_words", "What the child said (may stay empty)", own), field("next_time", "What you try next time (may stay empty)", next),
      field("bring", "What to bring (empty: water and a small towel)", bring)];
    const showFields = () => {
      if (!who.read()) who.write("student");
      const isForParents = who.read() === "parent";
      ofStudent.forEach((node) => (node.hidden = isForParents));
      ofParents.forEach((node) => (node.hidden = !isForParents));
    };
    who.onchange = showFields;
    const form = make("form", {class: "coach-sheet", novalidate: true, "aria-label": "Handout"}, who, scores,
      make("div", {class: "coach-pair"}, field("coach", "Coach (may stay empty)", coach), ofStudent[1], ...ofParents,
        model.get("can_pdf") ? field("sheet", "Paper of the PDF", sheet) : null));
    const options = () => ({options: readForm(form)});
    // No script runs in there: the sandbox allows none. It is of this origin only so that its height can be read.
    const frame = make("iframe", {class: "coach-page", title: "The handout as it will be printed", sandbox: "allow-same-origin"});
    frame.onload = () => (frame.style.height = `${(frame.contentDocument?.documentElement.scrollHeight || 1000) + 4}px`);
    form.onsubmit = (ev) => { ev.preventDefault(); send("make_page", options()); };
    submitOnEnter(form);
    form.append(make("div", {class: "coach-choices"}, make("button", {type: "submit", text: "Show the page"}),
      button("Save as page", () => send("save", {...options(), kind: "html"})), model.get("can_pdf") ? button("Save as PDF", () => send("save", {...options(), kind: "pdf"})) : null));

    const alias = typedInput(), consent = typedInput();
    const about = make("form", {novalidate: true, "aria-label": "About this student"},
      field("alias", "Shown as (alias, or empty for the name)", alias), field("consent_note", "Who agreed to what, and when", consent),
      make("div", {class: "coach-choices"}, make("button", {type: "submit", text: "Save this"}),
        button("Save everything kept of this student", () => send("export"))));
    about.onsubmit = (ev) => { ev.preventDefault(); send("about", readForm(about)); };
    submitOnEnter(about);

    const typed = typedInput();
    const erase = make("form", {class: "coach-erase", novalidate: true, "aria-label": "Erase this student"},
      field("erase", "To erase everything kept, type the name as it is shown. This cannot be undone", typed),
      make("div", {class: "coach-choices"}, make("button", {type: "submit", text: "Erase everything"})));
    erase.onsubmit = (ev) => { ev.preventDefault(); send("erase", {name: typed.value}); };

    const student = make("div", {class: "coach-report"},
      section("One thing to work on", work.headline, work.why, work.drill.box, work.marked.box, work.takes, work.caution),
      section("Over the sessions", figures),
      section("Own numbers", make("p", {class: "coach-small", text: "Worked out from the log. Nothing changes until you tick it."}), ask, list, make("div", {class: "coach-choices"}, use), used, wrong.numbers));
    const preview = make("div", {class: "coach-wide", tabindex: 0, role: "group", "aria-label": "Preview"}, frame);
    const page = section("To take home", form, saved.handout, wrong.handout, preview);
    const kept = make("details", {class: "coach-about"}, make("summary", {text: "Alias, consent, everything kept"}), about, saved.about, erase, wrong.about);
    el.replaceChildren(student, page, kept);
    who.write("student");
    showFields();


    const number = (one) => {
      if (!one.is_offered) return make("p", {class: "coach-number-told", text: one.words});
      const row = tick(one.field, `${one.words} ${one.kept}`);
      return row;
    };
    let name = "";
    const redraw = () => {
      const now = look(), isKnown = Boolean(now.work_on);
      student.hidden = kept.hidden = !isKnown;
      if (!isKnown) return;
      figures.replaceChildren(...trends(now));
      if (!now.chart) send("draw_soon");
      const todo = now.work_on;
      put(work.headline, todo.headline);
      put(work.why, todo.why);
      put(work.drill.words, `${todo.drill}: ${todo.do}`);
      put(work.marked.words, todo.marked_by);
      put(work.takes, todo.takes);
      put(work.caution, todo.caution);
      list.replaceChildren(list.firstChild, ...now.numbers.map(number));
      list.hidden = !now.numbers.length;
      use.hidden = true;
      put(used, now.used);
      if (name !== now.name) {
        typed.value = own.value = next.value = bring.value = "";
        who.write(now.for);
        showFields();
        tellSaved();
      }
      name = now.name;
      if (document.activeElement !== alias) alias.value = now.alias;
      if (document.activeElement !== consent) consent.value = now.consent_note;
    };
    const tell = () => Object.entries(wrong).forEach(([name, node]) => (node.textContent = model.get("errors")[name] || ""));
    const showPage = () => {
      preview.hidden = !model.get("page");
      if (preview.hidden) tellSaved();      // another session is shown
      frame.srcdoc = model.get("page");
    };
    let lastNumber = model.get("file").number || 0;
    const tellSaved = ({part, told} = {}) => Object.entries(saved).forEach(([name, node]) => (node.textContent = name === part ? told : ""));
    const save = () => {
      const file = model.get("file");
      if (file.number === lastNumber) return;
      lastNumber = file.number || 0;
      if (lastNumber) saveFile(file);
      tellSaved(file);
    };
    return follow(model, {look: redraw, errors: tell, page: showPage, file: save});
  },
};
