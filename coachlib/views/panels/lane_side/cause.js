// Whose doing a ball was: a bracket over five places between bowler and lane.
function bracket() {
  const X = (place) => 34 + 51 * place;
  const cover = draw("rect", {y: 6, height: 22, rx: 11, class: "coach-cover"});
  const ticks = [0, 1, 2, 3, 4].map((place) => draw("path", {d: `M${X(place)} 12v10`}));
  const words = [0, 1, 2, 3, 4].map((place) => draw("text", {x: X(place), y: 46}));
  const picture = draw("svg", {viewBox: "0 0 272 52", role: "img", class: "coach-bracket"},
    cover, draw("path", {d: `M${X(0)} 17H${X(4)}`}), ...ticks, ...words);
  const show = (told) => {
    if (!told) return;
    picture.setAttribute("aria-label", told.alt);
    cover.setAttribute("x", X(told.first) - 14);
    cover.setAttribute("width", X(told.last) - X(told.first) + 28);
    words.forEach((word, place) => {
      word.textContent = told.places[place];
      word.classList.toggle("coach-bold", told.bold.includes(place));
    });
  };
  return {node: picture, show};
}
