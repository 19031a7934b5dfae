/* A reader's own choice of light or dark, before the first paint; without one the media query decides. */
"use strict";
{
  const palette = __md_get("__palette");
  if (palette?.color && palette.color.media !== "(prefers-color-scheme)")
    document.body.setAttribute("data-md-color-scheme", palette.color.scheme);
}
