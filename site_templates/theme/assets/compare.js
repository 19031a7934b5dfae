/* Filters and sorts the comparison, whose rows stand in the page; without it the tables are whole and by name.
   What was chosen stands in the address, so that it can be kept and sent. */
"use strict";

for (const tools of document.querySelectorAll("[data-compares]")) {
  const fields = [...tools.querySelectorAll("[name]")];
  const order = tools.elements.sort;
  const shown = tools.querySelector("[data-shown]");
  const groups = [...document.querySelectorAll(".compare-group")].map(section => {
    const body = section.querySelector("tbody");
    const rows = [...body.rows].map(row => ({
      row,
      words: row.dataset.name.toLowerCase(),
      outcomes: (row.dataset.outcomes ?? "").split("|"),
      price: row.dataset.price === undefined ? Infinity : Number(row.dataset.price),
    }));
    return { section, body, rows, heads: [...section.querySelectorAll("thead th")] };
  });
  const asked = name => tools.elements[name]?.value ?? "";
  const plain = field => field === order ? "name" : "";

  const filter = () => {
    const words = asked("q").toLowerCase().split(/\s+/).filter(Boolean);
    const [group, outcome] = [asked("group"), asked("outcome")];
    const most = asked("price") === "" ? null : Number(asked("price"));
    let count = 0;
    for (const { section, rows } of groups) {
      let own = 0;
      for (const each of rows) {
        const kept = (!group || section.dataset.group === group)
          && (!outcome || each.outcomes.includes(outcome))
          && (most === null || each.price <= most)
          && words.every(word => each.words.includes(word));
        each.row.hidden = !kept;
        own += kept;
      }
      section.hidden = own === 0;
      count += own;
    }
    shown.textContent = count;
  };

  /* Of equal figures, and of cells without one, the order by name is kept; these come last either way. */
  const sort = () => {
    const [column, way] = order.value.split("-");
    const sign = way === "down" ? -1 : 1;
    for (const { body, rows, heads } of groups) {
      const at = heads.findIndex(head => head.dataset.column === column);
      const size = ({ row }) => {
        const value = row.cells[at].dataset.sort;
        return value === undefined ? Infinity : sign * Number(value);
      };
      const sorted = at < 0 ? rows : [...rows].sort((one, other) => {
        const [first, second] = [size(one), size(other)];
        return first === second ? 0 : first < second ? -1 : 1;
      });
      body.append(...sorted.map(each => each.row));
      heads.forEach((head, place) => {
        if (place === at) head.ariaSort = sign < 0 ? "descending" : "ascending";
        else head.removeAttribute("aria-sort");
      });
    }
  };

  /* What the address names and the page does not have is left alone. */
  const read = () => {
    const state = new URLSearchParams(location.search);
    for (const field of fields) {
      const value = state.get(field.name);
      field.value = plain(field);
      if (value === null) continue;
      if (field.options && ![...field.options].some(option => option.value === value)) continue;
      if (field.type === "number" && !(value.trim() && Number(value) >= 0)) continue;
      field.value = value;
    }
    filter();
    sort();
  };

  const address = () => {
    const state = new URLSearchParams(location.search);
    for (const field of fields) {
      if (field.value === plain(field)) state.delete(field.name);
      else state.set(field.name, field.value);
    }
    const query = state.toString();
    return location.pathname + (query ? `?${query}` : "") + location.hash;
  };

  /* A choice is a step to go back from; a letter typed is none. */
  const choose = () => {
    if (address() !== location.pathname + location.search + location.hash) history.pushState(null, "", address());
    filter();
    sort();
  };

  for (const field of fields) {
    if (field.options) field.addEventListener("change", choose);
    else field.addEventListener("input", () => {
      filter();
      history.replaceState(null, "", address());
    });
  }
  for (const { heads } of groups) {
    for (const head of heads) {
      const title = head.querySelector("[data-sorts]");
      if (!title) continue;
      const button = document.createElement("button");
      button.type = "button";
      button.className = "sorter";
      title.replaceWith(button);
      button.append(title);
      button.addEventListener("click", () => {
        const column = head.dataset.column;
        order.value = order.value === `${column}-up` ? `${column}-down` : `${column}-up`;
        choose();
      });
    }
  }
  tools.querySelector("[data-clears]").addEventListener("click", () => {
    for (const field of fields) field.value = plain(field);
    choose();
  });
  tools.addEventListener("submit", event => event.preventDefault());
  window.addEventListener("popstate", read);
  /* A page that is gone back to shows what its address says, not what the browser remembers of its fields. */
  window.addEventListener("pageshow", read);
  tools.hidden = false;
  read();
}
