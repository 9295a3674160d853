// Strikes as twenty balls in fives, a row for each line.
const N_BALLS = 20;

// The rows of an answer; their nodes are made once and filled again, so that the page does not grow.
function chanceRows(n_rows) {
  const rows = Array.from({length: n_rows}, () => {
    const words = make("span", {class: "coach-row-words"}), count = make("strong"), note = make("span", {class: "coach-small"});
    const balls = Array.from({length: N_BALLS}, (_, i) => draw("circle", {cx: 7 + 14 * i + 8 * Math.floor(i / 5), cy: 8, r: 5}));
    const picture = draw("svg", {viewBox: "0 0 304 16", "aria-hidden": "true", class: "coach-balls"}, ...balls);
    const told = make("span", {class: "coach-row-count"}, count, make("span", {text: " of 20 "}), note);
    return {node: make("li", {}, words, picture, told), words, count, note, balls};
  });
  const list = make("ul", {class: "coach-chances", "aria-label": "Strikes of twenty balls"}, ...rows.map(({node}) => node));
  const show = (told) => {
    list.hidden = !told.length;
    rows.forEach((row, at) => {
      const one = told[at];
      row.node.hidden = !one;
      if (!one) return;
      row.node.classList.toggle("coach-row-then", one.is_then);
      row.words.textContent = one.words;
      row.count.textContent = one.n;
      row.note.textContent = one.note;
      row.balls.forEach((ball, i) => {
        ball.setAttribute("class", i < one.n ? "coach-struck" : "");
        ball.setAttribute("r", i < one.n ? 5 : 3);
      });
    });
  };
  return {node: list, show};
}
