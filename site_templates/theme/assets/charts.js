/*
 * Puts a live chart in the place of a still, when a reader asks for it.
 *
 * Each figure.chart holds the still, a bar of buttons, a line that says what goes on, and the address of a script
 * that brings the live chart's JSON (charts/interactive.py): a script, since a page that was opened from a folder may
 * fetch nothing else. The still stays until the live chart's first frame, and if there is none. Colours come from
 * the style sheet by role, margins are the padding of the still's box, texts come from the JSON and from the words
 * in the page; nothing is left to the drawing library's own mind.
 */
"use strict";
{
  const LIBRARY = document.currentScript.dataset.plotly;

  const CONFIG = {
    displayModeBar: false,
    displaylogo: false,
    showSendToCloud: false,
    showLink: false,
    showTips: false,
    showAxisDragHandles: false,
    scrollZoom: false,
    doubleClick: "reset",
    doubleClickDelay: 500 /* ms between the two: a slow hand's, or a slow machine's */,
    responsive: false,
    typesetMath: false,
    plotlyServerURL: "",
  };

  /* Smallest part of an axis that can be looked at, and the distance of names at the edge, px. */
  const CLOSEST = 1 / 64;
  const NAME_GAP = 15;
  const AT_MOST = 6;

  const charts = new Map();
  let library = null;

  const loaded = address =>
    new Promise((ready, failed) => {
      const script = Object.assign(document.createElement("script"), { src: address });
      const done = answer => () => {
        script.remove();
        answer(script);
      };
      script.onload = done(ready);
      script.onerror = done(failed);
      document.head.append(script);
    });

  const load = () => {
    library ??= loaded(LIBRARY)
      .then(script => window.Plotly ?? Promise.reject(script))
      .catch(error => {
        library = null;
        throw error;
      });
    return library;
  };

  const touched = () => navigator.maxTouchPoints > 0 || matchMedia("(any-pointer: coarse)").matches;

  const plain = text => text.replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&amp;/g, "&");

  /* Ticks where a part of an axis is seen; those of the whole come with the JSON. */
  const ticksOf = ([low, high], factor) => {
    const span = (high - low) * factor;
    const power = 10 ** Math.floor(Math.log10(span / AT_MOST));
    const step = [1, 2, 5, 10].map(times => times * power).find(each => span / each <= AT_MOST);
    const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    const values = [];
    for (let at = Math.ceil((low * factor) / step); at * step <= high * factor; at++) values.push(at * step || 0);
    return {
      tickvals: values.map(each => each / factor),
      ticktext: values.map(each => each.toFixed(decimals).replace("-", "\u2212")),
    };
  };

  /* How high a line runs at a time; null where it does not reach. */
  const heightAt = (trace, time) => {
    let found = null;
    for (let at = 1; at < trace.x.length; at++) {
      const [from, to] = [trace.x[at - 1], trace.x[at]];
      if (from === null || to === null || time < from || time > to) continue;
      found = trace.y[at - 1] + ((trace.y[at] - trace.y[at - 1]) * (time - from)) / (to - from || 1);
    }
    return found;
  };

  class Chart {
    constructor(figure) {
      this.figure = figure;
      this.plot = figure.querySelector(".plot");
      this.says = figure.querySelector(".live-says");
      this.hint = this.says.textContent;
      this.units = null;
      this.asked = null;
      this.clear();
    }

    clear() {
      this.made = null;
      this.box = null;
      this.part = null;
      this.at = null;
      this.sizes?.disconnect();
    }

    get state() {
      return this.figure.dataset.state ?? "still";
    }

    show(state, says) {
      this.figure.dataset.state = state;
      this.figure.setAttribute("aria-busy", state === "loading");
      for (const [selector, shown] of [
        [".live-open", state !== "live"],
        [".live-back, .live-zoom", state === "live"],
      ])
        for (const each of this.figure.querySelectorAll(selector)) each.hidden = !shown;
      this.says.textContent = says;
    }

    async open() {
      if (this.state === "loading" || this.state === "live") return;
      const words = this.says.dataset;
      const asked = (this.asked = {});
      this.show("loading", words.loading);
      let said = words.failed;
      try {
        const [{ made }, Plotly] = await Promise.all([loaded(this.figure.dataset.live), load()]);
        if (this.asked !== asked) return;
        said = words.broken;
        this.made = made;
        await this.first(Plotly);
      } catch {
        if (this.asked !== asked) return;
        this.leave();
        this.show("failed", said);
      }
    }

    /* A box that is not laid out, in a closed fold, has no width yet: its first frame waits for one. */
    async first(Plotly) {
      this.box = Object.assign(document.createElement("div"), { className: "live", tabIndex: 0 });
      this.box.setAttribute("role", "application");
      this.box.setAttribute("aria-label", this.says.dataset.name);
      this.plot.append(this.box);
      const box = this.box;
      await new Promise(ready => {
        this.sizes = new ResizeObserver(() => {
          if (!box.clientWidth) return;
          if (this.state === "live") this.draw();
          else ready();
        });
        this.sizes.observe(box);
      });
      this.Plotly = Plotly;
      await this.draw();
      if (this.box !== box || this.state !== "loading") return;
      box.on("plotly_relayout", () => this.moved());
      for (const pointed of ["plotly_hover", "plotly_click"])
        box.on(pointed, ({ points: [point] }) => this.read(point.curveNumber, point.pointNumber));
      const focused = document.activeElement;
      this.show("live", this.says.dataset.help);
      if (focused === document.body || this.figure.contains(focused)) box.focus({ preventScroll: true });
    }

    leave() {
      if (this.box) {
        if (this.Plotly) this.Plotly.purge(this.box);
        this.box.remove();
      }
      delete this.figure.dataset.zoomed;
      this.clear();
    }

    close() {
      const inside = this.figure.contains(document.activeElement);
      this.asked = null;
      this.leave();
      this.show("still", this.hint);
      if (inside) this.figure.querySelector(".live-open").focus({ preventScroll: true });
    }

    /* What the still shows is what the style sheet decided. */
    get shown() {
      const us = this.figure.querySelector(".still .in-us");
      return this.units ?? (getComputedStyle(us).display === "none" ? "metric" : "us");
    }

    get whole() {
      const { xaxis, yaxis } = this.made.layout;
      return { x: xaxis.range, y: yaxis.range };
    }

    get ranges() {
      return this.part ?? this.whole;
    }

    draw() {
      if (!this.box?.clientWidth) return null;
      const { data, layout } = structuredClone({ data: this.made.data, layout: this.made.layout });
      const box = this.plot.getBoundingClientRect();
      const style = getComputedStyle(this.plot);
      const units = this.made.units[this.shown];
      const hand = touched();
      layout.width = box.width;
      layout.height = box.height;
      layout.autosize = false;
      layout.margin = { pad: 0, autoexpand: false };
      for (const side of ["left", "right", "top", "bottom"])
        layout.margin[side[0]] = parseFloat(style.getPropertyValue(`padding-${side}`));
      layout.font = { family: style.fontFamily };
      layout.hoverlabel.font.family = style.fontFamily;
      layout.dragmode = hand ? false : "zoom";
      const { x, y } = this.ranges;
      Object.assign(layout.xaxis, { range: [...x], fixedrange: hand, ticklabelstandoff: -1 });
      Object.assign(layout.yaxis, { range: [...y], fixedrange: hand, ticklabelstandoff: 7 });
      layout.yaxis.tickvals = units.tickvals;
      layout.yaxis.ticktext = units.ticktext;
      if (this.part) {
        Object.assign(layout.xaxis, ticksOf(x, 1));
        Object.assign(layout.yaxis, ticksOf(y, units.factor));
        layout.annotations = this.names(layout);
      }
      for (const trace of data)
        if (trace.customdata) trace.hovertemplate = `%{fullData.name}<br>${units.hovertemplate}<extra></extra>`;
      this.colour({ data, layout });
      const pointed = this.at && this.box.querySelector(".hovertext");
      const drawn = this.Plotly.react(this.box, data, layout, { ...CONFIG });
      if (pointed) this.point(this.at.trace, this.at.point);
      return drawn;
    }

    /* The names of lines that leave a part of the chart at its right edge, or end in it, none over another. */
    names(layout) {
      const { x, y } = this.ranges;
      const high = layout.height - layout.margin.t - layout.margin.b;
      const named = [];
      const name = (text, time, rise) => {
        if (rise === null || rise < y[0] || rise > y[1]) return;
        named.push({ text, x: (time - x[0]) / (x[1] - x[0]), px: ((y[1] - rise) / (y[1] - y[0])) * high });
      };
      for (const trace of this.made.data) {
        if (!trace.meta) continue;
        const ends = [x[1], ...trace.x.filter(each => each !== null && each < x[1]).reverse()];
        const last = ends.find(each => heightAt(trace, each) !== null);
        if (last > x[0]) name(trace.meta.end, last, heightAt(trace, last));
      }
      const limits = this.made.units[this.shown].limits;
      layout.shapes.forEach((rule, at) => name(`${this.says.dataset.limit} ${limits[at]}`, x[1], rule.y0));
      const seen = new Set();
      const once = named.sort((one, other) => one.px - other.px).filter(each => !seen.has(each.text) && seen.add(each.text));
      let free = -Infinity;
      for (const each of once) free = each.px = Math.max(each.px, free + NAME_GAP);
      return once.map(each => ({
        text: each.text,
        xref: "paper",
        yref: "paper",
        x: each.x,
        y: 1 - each.px / high,
        xanchor: "left",
        xshift: 8,
        yanchor: "middle",
        showarrow: false,
        font: { size: 12, color: "var(--ink)" },
      }));
    }

    /* Puts the style sheet's colours in for their roles. */
    colour(tree) {
      const probe = this.box.appendChild(document.createElement("i"));
      const known = {};
      const fill = each => {
        for (const [key, value] of Object.entries(each)) {
          if (value && typeof value === "object") fill(value);
          else if (key.endsWith("color") && String(value).startsWith("var(")) {
            probe.style.color = value;
            each[key] = known[value] ??= getComputedStyle(probe).color;
          }
        }
      };
      fill(tree);
      probe.remove();
    }

    /* After the reader drew a frame, or set the whole back by two clicks. */
    moved() {
      const { xaxis, yaxis } = this.box.layout;
      this.see({ x: [...xaxis.range], y: [...yaxis.range] });
    }

    see(part) {
      const whole = this.whole;
      const inside = axis => {
        const [low, high] = whole[axis];
        const span = Math.min(Math.max(part[axis][1] - part[axis][0], (high - low) * CLOSEST), high - low);
        const from = Math.min(Math.max(part[axis][0], low), high - span);
        return [from, from + span];
      };
      this.part = { x: inside("x"), y: inside("y") };
      if (["x", "y"].every(axis => this.part[axis].every((end, at) => Math.abs(end - whole[axis][at]) < 1e-9)))
        this.part = null;
      this.figure.toggleAttribute("data-zoomed", this.part !== null);
      this.draw();
    }

    /* Closer round the mark that was read last, else round the middle. */
    zoom(factor) {
      const trace = this.at && this.made.data[this.at.trace];
      const around = trace && { x: trace.x[this.at.point], y: trace.y[this.at.point] };
      const part = {};
      for (const axis of ["x", "y"]) {
        const [low, high] = this.ranges[axis];
        const middle = around && factor < 1 ? around[axis] : (low + high) / 2;
        const half = ((high - low) * factor) / 2;
        part[axis] = [middle - half, middle + half];
      }
      this.see(part);
    }

    read(trace, point) {
      const { name, customdata } = this.made.data[trace];
      if (!customdata?.[point]) return;
      this.at = { trace, point };
      const [at, metric, us] = customdata[point];
      const figure = (this.shown === "us" ? us : metric) + this.made.units[this.shown].sign;
      const told = { name: plain(name), at, figure };
      this.says.textContent = this.says.dataset.reading.replace(/\{(\w+)\}/g, (_, word) => told[word]);
    }

    /* Shows the label of a mark, if the mark is seen. */
    point(trace, point) {
      const { x, y } = this.made.data[trace];
      const seen = ([low, high], value) => value >= low && value <= high;
      if (seen(this.ranges.x, x[point]) && seen(this.ranges.y, y[point]))
        this.Plotly.Fx.hover(this.box, [{ curveNumber: trace, pointNumber: point }]);
      else this.Plotly.Fx.unhover(this.box);
    }

    /* By button: every mark there is, line after line. */
    walk(way) {
      const marks = this.made.data.flatMap(({ customdata, y }, trace) =>
        customdata ? y.flatMap((each, point) => (each === null ? [] : [[trace, point]])) : [],
      );
      const at = marks.findIndex(([trace, point]) => trace === this.at?.trace && point === this.at?.point);
      const next = at < 0 ? (way > 0 ? 0 : marks.length - 1) : at + way;
      this.reach(...(marks[next] ?? marks[at]));
    }

    /* Shows a mark and says it. */
    reach(trace, point) {
      this.follow(trace, point);
      this.point(trace, point);
      this.read(trace, point);
    }

    /* By key: left and right along a line, up and down to the next line at that time. */
    step(key) {
      const lines = this.made.data.map((trace, number) => ({ trace, number })).filter(each => each.trace.customdata);
      const last = ({ trace }) => trace.y.findLastIndex(each => each !== null);
      let next;
      if (!this.at) {
        const line = lines.reduce((one, other) => (other.trace.y[last(other)] < one.trace.y[last(one)] ? other : one));
        next = [line.number, last(line)];
      } else if (key === "ArrowLeft" || key === "ArrowRight") {
        const way = key === "ArrowRight" ? 1 : -1;
        const { y } = this.made.data[this.at.trace];
        let point = this.at.point + way;
        while (point in y && y[point] === null) point += way;
        next = point in y ? [this.at.trace, point] : [this.at.trace, this.at.point];
      } else next = this.neighbour(lines, key === "ArrowUp" ? 1 : -1);
      this.reach(...next);
    }

    /* Moves the part that is seen to where a mark is in it. */
    follow(trace, point) {
      const at = { x: this.made.data[trace].x[point], y: this.made.data[trace].y[point] };
      const part = {};
      let moved = false;
      for (const axis of ["x", "y"]) {
        const [low, high] = this.ranges[axis];
        const out = at[axis] < low || at[axis] > high;
        const half = (high - low) / 2;
        part[axis] = out ? [at[axis] - half, at[axis] + half] : [low, high];
        moved ||= out;
      }
      if (moved) this.see(part);
    }

    neighbour(lines, way) {
      const own = this.made.data[this.at.trace];
      const time = own.x[this.at.point];
      const beside = lines
        .map(({ trace, number }) => ({ number, rise: trace.y[trace.x.indexOf(time)], point: trace.x.indexOf(time) }))
        .filter(each => each.point >= 0)
        .sort((one, other) => one.rise - other.rise || one.number - other.number);
      const place = beside.findIndex(each => each.number === this.at.trace);
      const next = beside[place + way] ?? beside[place];
      return [next.number, next.point];
    }

    tell(units) {
      this.units = units;
      if (this.state !== "live") return;
      this.draw();
      if (this.at) this.read(this.at.trace, this.at.point);
    }
  }

  const chartOf = target => {
    const figure = target.closest?.("figure.chart");
    if (!figure?.dataset.live) return null;
    if (!charts.has(figure)) charts.set(figure, new Chart(figure));
    return charts.get(figure);
  };

  document.addEventListener("click", event => {
    const chart = chartOf(event.target);
    const on = selector => event.target.closest(selector);
    if (!chart) return;
    if (on(".live-open") || (on(".plot") && !on(".live"))) chart.open();
    else if (on(".live-back")) chart.close();
    else if (on(".live-closer")) chart.zoom(1 / 2);
    else if (on(".live-further")) chart.zoom(2);
    else if (on(".live-whole")) chart.see(chart.whole);
    else if (on(".live-first")) chart.see({ ...chart.whole, x: [chart.whole.x[0], +on(".live-first").dataset.to] });
    else if (on(".live-before")) chart.walk(-1);
    else if (on(".live-after")) chart.walk(1);
  });

  document.addEventListener("keydown", event => {
    const chart = chartOf(event.target);
    if (!chart) return;
    if (event.key === "Escape" && ["live", "loading"].includes(chart.state)) chart.close();
    else if (event.target === chart.box && event.key.startsWith("Arrow")) {
      event.preventDefault();
      chart.step(event.key);
    }
  });

  const redraw = () => {
    for (const chart of charts.values()) if (chart.state === "live") chart.draw();
  };
  for (const query of ["(prefers-color-scheme: dark)", "(forced-colors: active)"])
    matchMedia(query).addEventListener("change", redraw);
  new MutationObserver(redraw).observe(document.body, { attributeFilter: ["data-md-color-scheme"] });

  document.addEventListener("provebook:units", ({ detail }) => {
    for (const chart of charts.values()) chart.tell(detail);
  });
}
