// What the session was, before it is left: dots are balls, never scores.
export default {
  render({model, el}) {
    const text = (name, tag = "p") => make(tag, {class: `coach-${name}`});
    const title = make("h2", {class: "coach-sum-title", tabindex: -1}), about = text("small"), worked = text("sum-worked");
    const pain = text("sum-worked"), painNoted = text("small"), saved = make("p", {class: "coach-status", role: "status"});
    const trend = trendChart(60), lines = make("ul", {class: "coach-sum-lines"});
    const causes = told("You or the lane?"), spares = told("Spares"), thing = told("One thing"), next = told("Next start");
    const start = text("small"), cautions = make("ul", {class: "coach-cautions", "aria-label": "Cautions"});
    const causeDots = make("div"), spareDots = make("div"), choices = make("div", {class: "coach-choices"});
    causes.box.append(causeDots);
    spares.box.append(spareDots);
    next.box.append(start);
    el.replaceChildren(make("section", {class: "coach-sum", "aria-label": "This session"},
      make("div", {class: "coach-sum-head"}, make("div", {}, title, about), choices), saved, pain, painNoted, worked, trend.box, lines,
      make("div", {class: "coach-tells"}, next.box, thing.box, causes.box, spares.box), cautions));

    const dots = (n, of) => "●".repeat(n) + "○".repeat(Math.max(of - n, 0));
    const row = (words, marks) => make("p", {class: "coach-dots-row"}, make("span", {text: words}), make("span", {class: "coach-dots", "aria-hidden": "true", text: marks}));
    const goBack = (tries = 20) => {  // where one goes on: the spare, the next ball, the session offered, or who throws
      const places = el.closest(".coach")?.querySelectorAll("[data-result=made], .coach-strip, .coach-offer button, .coach-setup input") || [];
      const next = [...places].find((node) => node.getClientRects().length);
      if (next) { next.focus({preventScroll: true}); showTop(el); }
      else if (tries) setTimeout(() => goBack(tries - 1), 50);
    };
    const redraw = () => {
      const look = model.get("look"), isNew = Boolean(look.title) && !title.textContent;
      const isFree = document.activeElement === document.body || el.contains(document.activeElement);      // what is hidden has lost the focus
      const wasShown = Boolean(title.textContent) && !look.title && isFree;
      title.textContent = look.title || "";
      if (isNew || !look.title) put(saved, "");
      if (wasShown) setTimeout(goBack, 50);
      if (!look.title) return;
      about.textContent = look.about;
      put(pain, look.pain);
      put(painNoted, look.pain_noted);
      worked.textContent = look.worked;
      trend.show(look.trend);
      lines.replaceChildren(...look.lines.map((one) => make("li", {class: one.is_move}, make("span", {class: "coach-title", text: one.head}),
        make("strong", {text: one.line}), make("span", {text: one.count}), make("span", {class: "coach-small", text: one.verdict}))));
      causes.words.textContent = look.causes.words;
      causeDots.replaceChildren(...look.causes.counts.filter(([, n]) => n).map(([words, n]) => row(`${words}, ${n}`, dots(n, n))));
      spares.box.hidden = !look.spares.length;
      spareDots.replaceChildren(...look.spares.map(([words, made, tried]) => row(`${words}: ${made} of ${tried} made`, dots(made, tried))));
      thing.words.textContent = look.one_thing;
      [next.words.textContent, start.textContent] = look.next_start;
      cautions.replaceChildren(...look.cautions.map((words) => make("li", {text: words})));
      choices.replaceChildren(...look.choices.map(({action, words, is_main: isMain}) =>
        button(words, () => model.send({do: action}), {class: isMain ? "coach-main" : ""})));
      if (isNew) { title.focus({preventScroll: true}); showTop(el); }
    };
    let lastNumber = model.get("file").number || 0;
    const save = () => {
      const file = model.get("file");
      if ((file.number || 0) === lastNumber) return;
      lastNumber = file.number;
      saveFile(file);
      put(saved, file.told);
    };
    const watch = new ResizeObserver(() => model.get("look").title && trend.show(model.get("look").trend));    // drawn for the room it has
    watch.observe(el);
    const stop = follow(model, {look: redraw, file: save});
    return () => { watch.disconnect(); stop(); };
  },
};
