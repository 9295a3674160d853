// Stands where the stock page fetches a formula setter from a public host: no page of ours holds a formula.
window.MathJax = new Proxy(function () {}, {
  get: (nothing, name) => (name === "then" ? undefined : window.MathJax),
  apply: () => window.MathJax,
});
