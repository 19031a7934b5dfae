/* Where everything of a chart stands in the window, from its own corner on, and how it looks. */
({ which, number }) => {
  const figure = document.querySelectorAll("figure.chart")[number];
  const corner = which === "window" ? { x: 0, y: 0 } : figure.getBoundingClientRect();
  const all = selector => [...figure.querySelectorAll(selector)];
  const seen = each => each.getBoundingClientRect().width > 0;
  const look = each => {
    const { fill, stroke, strokeWidth } = getComputedStyle(each);
    return { fill, stroke, strokeWidth };
  };
  const place = (each, x = 0, y = 0) => {
    const at = new DOMPoint(x, y).matrixTransform(each.getScreenCTM());
    return { x: at.x - corner.x, y: at.y - corner.y };
  };
  const size = each => {
    const { width, height } = each.getBBox();
    return { w: width, h: height };
  };
  const middle = each => {
    const box = each.getBoundingClientRect();
    return { x: box.x + box.width / 2 - corner.x, y: box.y + box.height / 2 - corner.y };
  };
  const line = each => ({ ...middle(each), stroke: look(each).stroke, strokeWidth: look(each).strokeWidth });
  const text = each => ({
    ...middle(each),
    text: each.textContent,
    fill: look(each).fill,
    font: getComputedStyle(each).fontSize,
  });
  const still = {
    marks: () =>
      all(".still :is(.full, .hollow) use").map(each => ({
        ...place(each.parentNode, each.x.baseVal.value, each.y.baseVal.value),
        ...look(each),
        ...size(each),
      })),
    stops: () =>
      all(".still use.stop").map(each => ({
        ...place(each.parentNode, each.x.baseVal.value, each.y.baseVal.value),
        stroke: look(each).stroke,
        strokeWidth: look(each).strokeWidth,
        ...size(each),
      })),
    xticks: () => all(".still .along line").map(line),
    yticks: () => all(".still .grid line").filter(seen).map(line),
    limits: () => all(".still .limit line").map(line),
    xtexts: () => all(".still .along text:not(.unit)").map(text),
    ytexts: () => all(".still .grid text:not(.unit)").filter(seen).map(text),
  };
  const traces = mode => all(".scatterlayer .trace").filter(each => mode(each.querySelectorAll(".lines path").length));
  const points = mode => traces(mode).flatMap(each => [...each.querySelectorAll(".points path.point")]);
  const live = {
    marks: () =>
      points(lines => lines > 0).map(each => ({ ...place(each), ...look(each), ...size(each) })),
    stops: () =>
      points(lines => lines === 0).map(each => ({
        ...place(each),
        stroke: look(each).stroke,
        strokeWidth: look(each).strokeWidth,
        ...size(each),
      })),
    xticks: () => all(".live path.xtick").map(line),
    yticks: () => all(".live .gridlayer .ygrid").map(line),
    limits: () => all(".live .shapelayer path").map(line),
    xtexts: () => all(".live .xtick text").map(text),
    ytexts: () => all(".live .ytick text").map(text),
  };
  const found = {};
  for (const [name, get] of Object.entries(which === "still" ? still : live)) found[name] = get();
  return found;
}
