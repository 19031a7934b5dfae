/* A reader's own choice of light or dark, before the first paint; without one the media query decides. */
"use strict";
{
  const chosen = () => __md_get("__palette");

  const palette = chosen();
  if (palette?.color && palette.color.media !== "(prefers-color-scheme)")
    document.body.setAttribute("data-md-color-scheme", palette.color.scheme);

  /* A page that comes back as it was left has not heard of a choice made on another. */
  addEventListener("pageshow", event => {
    const option = document.getElementById(`__palette_${chosen()?.index ?? 0}`);
    if (event.persisted && option && !option.checked) option.click();
  });
}
