// How the spare went: three answers as they lie, seen from behind. One tap saves.
function spareQuestion(model) {
  const title = make("p", {class: "coach-legend", id: uid("spare")}), words = make("p", {class: "coach-spare-words"});
  const answers = make("div", {class: "coach-answers", role: "group", "aria-labelledby": title.id});
  const left = make("div", {class: "coach-standing", role: "group", "aria-label": "Pins that still stand after a miss"});
  const node = make("div", {class: "coach-spare"}, title, answers, left, words);
  let asked = "";
  const standing = () => [...left.querySelectorAll("input:checked")].map((box) => Number(box.value));
  const picture = (result) => draw("svg", {viewBox: "0 0 60 34", "aria-hidden": "true", class: "coach-spare-picture"},
    draw("circle", {cx: 30, cy: 9, r: 6, class: result === "made" ? "coach-fell" : "coach-stands"}),
    draw("path", {d: {missed_left: "M12 34V22", made: "M30 34V25", missed_right: "M48 34V22"}[result]}),
    draw("circle", {cx: {missed_left: 12, made: 30, missed_right: 48}[result], cy: result === "made" ? 20 : 14, r: 7, class: "coach-ball"}));
  const show = (spare) => {
    node.hidden = !spare;
    if (!spare || asked === JSON.stringify(spare)) return false;
    const isNew = !asked.includes(`"ball":${spare.ball},`);
    const isOther = isNew || !asked.includes(`"pins":${JSON.stringify(spare.pins)}`);     // the leave was corrected
    asked = JSON.stringify(spare);
    title.textContent = spare.title;
    put(words, spare.words);
    if (!isOther) return false;
    answers.replaceChildren(...spare.answers.map(([result, text]) => {
      const tap = button("", () => model.send({do: "spare", ball: spare.ball, result, standing: standing()}), {"data-result": result});
      tap.append(picture(result), make("span", {text}));
      return tap;
    }));
    left.replaceChildren(...(spare.pins.length < 2 ? [] : [make("span", {class: "coach-small", text: "Missed: tap the pins that fell"}),
      ...spare.pins.map((pin) => make("label", {class: "coach-pin"}, make("input", {type: "checkbox", value: pin, checked: true, "aria-label": `pin ${pin} still stands`}), make("span", {text: pin})))]));
    return isNew;
  };
  answers.onkeydown = (ev) => {
    const all = [...answers.children], at = all.indexOf(document.activeElement);
    const to = at + ({ArrowLeft: -1, ArrowRight: 1}[ev.key] || 0);
    if (ev.repeat && ev.key === "Enter") ev.preventDefault();      // the key that read the ball is still held down
    if (to === at || !all[to]) return;
    ev.preventDefault();
    all[to].focus();
  };
  const focus = () => answers.querySelector("[data-result=made]")?.focus({preventScroll: true});
  return {node, show, focus, clear: () => (asked = "")};
}
