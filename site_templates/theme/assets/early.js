/* What the theme's script expects before it runs, and what a page needs before it is drawn. */
"use strict";

document.documentElement.classList.replace("no-js", "js");

window.__md_scope = new URL(document.currentScript.dataset.base, location);

window.__md_hash = text => [...text].reduce((sum, sign) => (sum << 5) - sum + sign.charCodeAt(0), 0);

/* A browser may refuse storage, or hold something of another page's: both mean that nothing is remembered. */
window.__md_get = (key, storage, scope = window.__md_scope) => {
  try {
    return JSON.parse((storage ?? localStorage).getItem(`${scope.pathname}.${key}`));
  } catch {
    return null;
  }
};

window.__md_set = (key, value, storage, scope = window.__md_scope) => {
  try {
    (storage ?? localStorage).setItem(`${scope.pathname}.${key}`, JSON.stringify(value));
  } catch {
    /* not remembered */
  }
};

/* Units: the reader's own choice, else those that stand first in this bench. A tab that shows the other ones follows. */
{
  const KEY = "__units";
  const page = document.documentElement;
  const first = document.currentScript.dataset.units;

  const chosen = () => {
    const units = __md_get(KEY);
    return units === "metric" || units === "us" ? units : first;
  };

  const press = () => {
    for (const button of document.querySelectorAll("[data-shows-units]"))
      button.setAttribute("aria-pressed", button.dataset.showsUnits === page.dataset.units);
  };

  const show = units => {
    if (units === page.dataset.units) return;
    page.dataset.units = units;
    press();
    document.dispatchEvent(new CustomEvent("provebook:units", { detail: units }));
  };

  page.dataset.units = chosen();

  document.addEventListener("DOMContentLoaded", press);

  document.addEventListener("click", event => {
    const units = event.target.closest("[data-shows-units]")?.dataset.showsUnits;
    if (!units) return;
    __md_set(KEY, units);
    show(units);
  });

  addEventListener("storage", event => {
    if (event.key === null || event.key === `${__md_scope.pathname}.${KEY}`) show(chosen());
  });

  /* A page that comes back as it was left has heard of nothing meanwhile. */
  addEventListener("pageshow", event => {
    if (event.persisted) show(chosen());
  });
}

/* Search opens by any button that says so; the focus goes into it and comes back to the button. The page that it
   covers is out of reach meanwhile. */
{
  let opener = null;
  const toggle = () => document.getElementById("__search");

  document.addEventListener("click", event => {
    const button = event.target.closest("[data-opens-search]");
    if (button && toggle()) {
      opener = button;
      if (!toggle().checked) toggle().click();
    }
  });

  document.addEventListener("change", event => {
    if (event.target !== toggle()) return;
    for (const covered of document.querySelectorAll(".md-skip, .head-inner, .md-container"))
      covered.inert = event.target.checked;
    if (event.target.checked) document.querySelector("[data-md-component=search-query]").focus();
    else opener?.focus();
  });
}

/* Escape closes the menu, and the focus stays where it was opened. */
document.addEventListener("keydown", event => {
  const menu = event.key === "Escape" && document.querySelector(".menu-narrow[open]");
  if (!menu || document.getElementById("__search")?.checked) return;
  menu.open = false;
  menu.querySelector("summary").focus();
});

/* On paper nothing is folded away. */
{
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll("article details:not([open])")];
    for (const each of opened) each.open = true;
  });
  addEventListener("afterprint", () => {
    for (const each of opened) each.open = false;
  });
}

/* What a link leads to is shown, though it stands in a part that is folded away. */
{
  const unfold = () => {
    const target = document.querySelector(":target");
    let folded = false;
    for (let each = target?.closest("details"); each; each = each.parentElement.closest("details")) {
      folded ||= !each.open;
      each.open = true;
    }
    if (folded) target.scrollIntoView();
  };
  addEventListener("DOMContentLoaded", unfold);
  addEventListener("hashchange", unfold);
  /* A second time, after a reader has closed it again. */
  document.addEventListener("click", event => {
    const link = event.target.closest("article a[href]");
    if (link?.hash && link.href === location.href) unfold();
  });
}
