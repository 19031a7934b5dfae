/* Filters and sorts the comparison, whose rows stand in the page; without it the table is whole and by name. */
"use strict";

for (const tools of document.querySelectorAll("[data-compares]")) {
  const table = document.getElementById(tools.dataset.compares);
  const body = table.tBodies[0];
  const byName = [...body.rows];
  const words = byName.map(row => row.dataset.name.toLowerCase());
  const filter = tools.querySelector("[data-filters]");
  const order = tools.querySelector("[data-sorts]");
  const shown = tools.querySelector("[data-shown]");

  const show = () => {
    const asked = filter.value.toLowerCase().split(/\s+/).filter(Boolean);
    byName.forEach((row, at) => {
      row.hidden = !asked.every(word => words[at].includes(word));
    });
    shown.textContent = byName.filter(row => !row.hidden).length;
  };

  /* Of equal figures, and of cells without one, the order by name is kept; these come last either way. */
  const sort = () => {
    const option = order.selectedOptions[0];
    const column = Number(option.value);
    const sign = option.dataset.way === "down" ? -1 : 1;
    const size = row => {
      const value = row.cells[column + 1].dataset.sort;
      return value === undefined ? Infinity : sign * Number(value);
    };
    const rows = option.value === "name" ? byName : [...byName].sort((one, other) => {
      const [first, second] = [size(one), size(other)];
      return first === second ? 0 : first < second ? -1 : 1;
    });
    body.append(...rows);
    [...table.tHead.rows[0].cells].forEach((head, at) => {
      if (option.value !== "name" && at === column + 1)
        head.ariaSort = sign < 0 ? "descending" : "ascending";
      else head.removeAttribute("aria-sort");
    });
  };

  filter.addEventListener("input", show);
  order.addEventListener("change", sort);
  tools.addEventListener("submit", event => event.preventDefault());
  tools.hidden = false;

  /* A browser may give back what was chosen before the page was left. */
  show();
  sort();
}
