// The layout in side and plan view, to scale, and the machine nearer; anchors and fairleads can be moved in each.
const STYLE = `
.holding-drawing { position: relative; }
.holding-drawing svg { display: block; width: 100%; user-select: none; touch-action: pan-y; }
.holding-drawing text { font: 12px "Race Sans", "DejaVu Sans", sans-serif; fill: var(--ink); }
.holding-drawing text.soft { fill: var(--soft); } .holding-drawing text.head { font-weight: 700; }
.holding-drawing .halo { paint-order: stroke; stroke: var(--water); stroke-width: 4px; stroke-linejoin: round; }
.holding-drawing .told { paint-order: stroke; stroke: var(--paper); stroke-width: 5px; stroke-linejoin: round; font-weight: 700; pointer-events: none; }
.holding-drawing .water { fill: var(--water); } .holding-drawing .bed { fill: var(--bed); }
.holding-drawing .ledge { stroke: var(--ink); stroke-width: .7; }
.holding-drawing .surface { stroke: var(--accent); stroke-width: 1.6; } .holding-drawing .ground { stroke: var(--ink); stroke-width: 1; }
.holding-drawing .line { fill: none; stroke: var(--ink); stroke-width: 1.6; } .holding-drawing .slack { stroke-dasharray: 2 4; }
.holding-drawing .ghost { fill: none; stroke: var(--soft); stroke-width: 1.2; stroke-dasharray: 5 4; }
.holding-drawing .duct { fill: var(--accent); fill-opacity: .85; stroke: var(--ink); stroke-width: .8; }
.holding-drawing .waiting-duct { fill: none; stroke: var(--accent); stroke-width: 1.4; stroke-dasharray: 3 3; }
.holding-drawing .axis { stroke: var(--paper); stroke-width: 1; stroke-dasharray: 9 3 2 3; }
.holding-drawing .box { fill: none; stroke: var(--soft); stroke-width: 1; stroke-dasharray: 2 3; }
.holding-drawing .plate { fill: none; stroke: var(--rule); } .holding-drawing .bar { stroke: var(--ink); stroke-width: 1.4; fill: none; }
.holding-drawing .measure { stroke: var(--ink); stroke-width: .9; fill: none; }
.holding-drawing .mark { fill: var(--paper); stroke: var(--ink); stroke-width: 2; } .holding-drawing .dot { fill: var(--ink); }
.holding-drawing .spot { cursor: grab; outline: none; } .holding-drawing .spot .reach { fill: transparent; }
.holding-drawing .spot:hover .mark, .holding-drawing .spot.held .mark { fill: var(--ink); }
.holding-drawing .spot:focus-visible .mark { stroke: var(--second); stroke-width: 4; }
.holding-drawing .stale { opacity: .5; }
.holding-drawing .wait { min-height: 16rem; display: flex; align-items: center; color: var(--soft); }
.holding-drawing .asks { display: flex; flex-wrap: wrap; gap: .4rem 1.6rem; align-items: center; margin-bottom: .6rem; font-size: .84rem; }
.holding-drawing .asks label { display: flex; gap: .5rem; align-items: center; }
.holding-drawing select { font: inherit; color: var(--ink); background: var(--paper); border: 1px solid var(--soft); border-radius: 2px; padding: .25rem .4rem; max-width: 14rem; }
.holding-drawing input[type=range] { width: 9rem; accent-color: var(--accent); } .holding-drawing output { min-width: 4.4rem; }
.holding-points { display: grid; gap: .35rem .6rem; grid-template-columns: repeat(3, minmax(0, 1fr)); } .holding-points + .holding-points { margin-top: .55rem; }
.holding-points h3 { grid-column: 1 / -1; } .holding-points .help { display: none; } .holding-points .q-field--with-bottom { padding-bottom: 0; }
.holding-points .q-field__bottom { position: static; min-height: 0; padding: 2px 0 0; transform: none; } .holding-points .q-field__control { padding: 0 8px; }
.holding-groups { display: grid; gap: 1.4rem 2rem; grid-template-columns: repeat(auto-fit, minmax(20rem, 1fr)); }
.holding-fold { margin-top: 1.4rem; } .holding-fold > summary { cursor: pointer; color: var(--accent); font-weight: 700; padding: .4rem 0; border-top: 1px solid var(--rule); } .holding-fold > .part { margin-top: 1.2rem; }
.holding-stack > * + * { margin-top: 1.1rem; }
`;
const SIDE = [0, 2], PLAN = [0, 1];
const bounds = (points, i) => [Math.min(...points.map((p) => p[i])), Math.max(...points.map((p) => p[i]))];

export default {
  template: `
<div class="holding-drawing" ref="box">
  <div v-if="!rest" class="wait">{{ said || "The drawing comes with the first answer." }}</div>
  <template v-else>
  <div class="asks">
    <label v-if="states.length">load state
      <select aria-label="load state" :value="rest.state" @change="$emit('asked', {state: $event.target.value})"><option v-for="s in states" :key="s" :value="s">{{ s }}</option></select></label>
    <label>stream <input type="range" aria-label="stream speed" :min="(fastest / 20).toFixed(3)" :max="fastest" step="any" :value="rest.speed" @input="slide($event)" @change="slide($event, true)">
      <output>{{ (sliding ?? rest.speed).toFixed(2) }}\u202fm/s</output></label>
    <label v-if="paired"><input type="checkbox" :checked="mirror" @change="$emit('mirrored', {on: $event.target.checked})"> move its mirror image too</label>
  </div>
  <svg :viewBox="'0 0 ' + width + ' ' + sheet.height" :height="sheet.height" role="group" :class="{stale: stale}"
       aria-label="The layout to scale, water left to right: from the side, from above, and the machine nearer in both views; anchors and fairleads can be moved">
    <g v-for="v in sheet.views" :key="v.id" :transform="'translate(' + v.left + ' ' + v.top + ')'">
      <text x="0" y="14" class="head">{{ v.title }}</text>
      <text v-if="v.note" :x="v.w" y="14" text-anchor="end" class="soft">{{ v.note }}</text>
      <g transform="translate(0 22)">
        <clipPath :id="uid + v.id"><rect x="0" y="0" :width="v.w" :height="v.h" /></clipPath>
        <g :clip-path="'url(#' + uid + v.id + ')'" aria-hidden="true">
          <rect class="water" x="0" :y="v.j === 2 ? Math.max(0, py(v, rest.depth)) : 0" :width="v.w" :height="v.h" />
          <template v-if="v.j === 2">
            <path v-for="(d, n) in ledges(v)" :key="'b' + n" class="bed ledge" :d="d" />
            <rect class="bed" x="0" :y="py(v, 0)" :width="v.w" :height="Math.max(0, v.h - py(v, 0))" />
            <line class="ground" x1="0" :x2="v.w" :y1="py(v, 0)" :y2="py(v, 0)" />
            <line class="surface" x1="0" :x2="v.w" :y1="py(v, rest.depth)" :y2="py(v, rest.depth)" />
          </template>
          <template v-if="ghost">
            <path v-for="(l, n) in ghost.lines" :key="'g' + n" class="ghost" :d="way(v, l.at)" />
            <path class="ghost" :d="body(v, ghost)" />
          </template>
          <template v-for="(l, n) in rest.lines" :key="'l' + n">
            <path class="line" :class="{slack: l.form === 'slack'}" :d="way(v, l.at)" />
            <path v-for="(g, m) in l.legs" :key="m" class="line" :d="way(v, g)" />
          </template>
          <path :class="rest.settled ? 'duct' : 'waiting-duct'" :d="body(v, rest)" />
          <line v-if="rest.settled" class="axis" :x1="px(v, rest.axis[0][0])" :y1="py(v, rest.axis[0][v.j])" :x2="px(v, rest.axis[1][0])" :y2="py(v, rest.axis[1][v.j])" />
          <circle v-for="(r, n) in v.rings" :key="'r' + n" class="ghost" :cx="px(v, 0)" :cy="py(v, 0)" :r="r * v.k" />
          <rect v-if="v.box" class="box" :x="px(v, v.box[0])" :y="py(v, v.box[3])" :width="(v.box[1] - v.box[0]) * v.k" :height="(v.box[3] - v.box[2]) * v.k" />
          <g v-for="(m, n) in v.measures" :key="'m' + n">
            <path class="measure" :d="'M' + m.x + ' ' + m.y1 + 'V' + m.y2 + 'M' + (m.x - 4) + ' ' + m.y1 + 'h8M' + (m.x - 4) + ' ' + m.y2 + 'h8'" />
            <text class="halo" :x="m.x + 8" :y="m.y">{{ m.text }}</text>
          </g>
          <path v-for="(c, n) in v.cuts || []" :key="'c' + n" class="measure" :d="'M3 ' + (c.y + 6) + 'l5 -12m3 12l5 -12'" />
          <text v-for="(t, n) in v.names" :key="'t' + n" class="halo" :x="t.x" :y="t.y" :text-anchor="t.anchor">{{ t.text }}</text>
          <g v-if="!v.measures" :transform="'translate(' + (v.w - v.scale.w - 10) + ' ' + (v.h - 10 - (v.j === 2 ? Math.max(0, v.h - py(v, 0)) : 0)) + ')'">
            <path class="bar" :d="'M0 -4V0H' + v.scale.w + 'V-4'" />
            <text class="halo" :x="v.scale.w / 2" y="-6" text-anchor="middle">{{ v.scale.text }}</text>
          </g>
        </g>
        <rect class="plate" x=".5" y=".5" :width="v.w - 1" :height="v.h - 1" />
        <g v-for="s in v.spots" :key="s.key" class="spot" :class="{held: held === s.key}" tabindex="0" role="slider" :aria-label="s.label + ', ' + v.title"
           :aria-valuenow="s.at[0].toFixed(2)" :aria-valuetext="say(s)" :transform="'translate(' + px(v, s.at[0]) + ' ' + py(v, s.at[v.j]) + ')'"
           @pointerdown="grab(v, s, $event)" @keydown="press(v, s, $event)" @focus="shown = s.key" @blur="leave(s)" @pointerenter="shown = s.key" @pointerleave="shown = ''">
          <title>{{ say(s) }}</title>
          <circle class="reach" r="14" />
          <rect v-if="s.kind === 'anchor'" class="mark" x="-5.5" y="-5.5" width="11" height="11" /><circle v-else class="mark" r="5.5" />
        </g>
        <text v-if="told && told.view === v.id" class="told" :x="told.x" :y="told.y" :text-anchor="told.anchor">{{ told.text }}</text>
      </g>
    </g>
  </svg>
  </template>
</div>`,
  props: { rest: Object, ghost: Object, spots: Array, states: Array, fastest: Number, swing: Array, stale: Boolean, mirror: Boolean, paired: Boolean, said: String },
  data: () => ({ width: 900, held: "", from: "", shown: "", by: null, begun: null, frozen: null, sliding: null, uid: "h" + Math.random().toString(36).slice(2) }),
  mounted() {
    if (!document.getElementById("holding-drawing-style")) {
      const style = document.createElement("style");
      style.id = "holding-drawing-style";
      style.textContent = STYLE;
      document.head.append(style);
    }
    this.watcher = new ResizeObserver(() => { const w = this.$refs.box?.clientWidth; if (w) this.width = w; });
    this.watcher.observe(this.$refs.box);
    this.width = this.$refs.box.clientWidth || 900;
  },
  unmounted() { this.watcher?.disconnect(); clearTimeout(this.later); clearTimeout(this.soon); },
  watch: { rest() { this.sliding = null; } },
  computed: {
    moved() { // spots with the pull on them
      return this.spots.map((s) => {
        const key = s.kind + " " + s.name, pulled = this.by && this.held === key;
        return { ...s, key, base: pulled ? this.begun : s.at, at: pulled ? this.begun.map((v, i) => v + this.by[i]) : s.at };
      });
    },
    frame() { // scale and ends of the views, held still while something is pulled
      if (this.frozen) return this.frozen;
      const r = this.rest, phone = this.width < 620, ghost = this.ghost;
      const far = [...this.spots.map((s) => s.at), ...r.lines.flatMap((l) => l.at), ...r.axis, ...(ghost ? ghost.axis : [])];
      let [left, right] = bounds([...far, ...r.side.map((p) => [p[0]]), ...(ghost ? ghost.side.map((p) => [p[0]]) : [])], 0);
      const span = right - left, measures = phone ? 108 : 150;
      left -= 0.04 * span;
      right += 0.03 * span;
      const top = Math.max(r.depth, ...far.map((p) => p[2])) + 0.02 * span, low = -Math.max(0.25, 0.02 * span);
      const k = Math.min((this.width - measures) / (right - left), 380 / (top - low)), reach = Math.max(0, ...(this.swing || []));
      const ys = bounds([...far, ...r.plan.map((p) => [0, p[1]]), [0, reach], [0, -reach]], 1);
      const across = Math.max(1.18 * Math.max(ys[1], -ys[0]) + 14 / k, (phone ? 46 : 56) / k);
      return { left, top, low, k, across, near: this.nearer() };
    },
    sheet() {
      const { left, top, low, k, across, near } = this.frame, phone = this.width < 620, views = [];
      const swing = (this.swing || []).filter((x) => x > 0);
      const names = (v, spots, kept) => this.named(v, spots, kept);
      const inside = (s) => [0, 1, 2].every((i) => s.at[i] >= near[i][0] && s.at[i] <= near[i][1]);
      const outside = this.moved.filter((s) => !inside(s) || this.held === s.key && this.from && !this.from.startsWith("near"));
      const [nx, ny, nz] = near;
      let y = 0;
      const tall = phone ? 300 : 340, whole = phone ? this.deep() : null;
      const put = (v) => { v.h = (v.high - v.low) * v.k; v.left ??= 0; v.top ??= y; v.w ??= this.width; v.scale = this.scaled(v); views.push(v); return v; };
      if (whole) { // a phone shows the machine first, from bed to surface; what is cut off is said
        const v = put({ id: "near-side", title: "From the side, at the machine", j: 2, k: whole.k, x0: whole.x0, low, high: top, spots: this.moved.filter((s) => inside(s) || this.held === s.key && this.from === "near-side") });
        v.measures = this.measured(v);
        v.cuts = this.cut(v, outside);
        v.names = [...v.cuts.flatMap((c) => c.names), ...names(v, v.spots, [...v.cuts.map((c) => c.box), ...v.measures.map((m) => [m.x - 5, m.x + 100, m.y - 12, m.y + 5])])];
        y += v.h + 40;
      }
      const side = put({ id: "side", title: whole ? "The whole, from the side" : "From the side", note: phone ? "" : "to scale, water left to right", j: 2, k, x0: left, low, high: top, box: [nx[0], nx[1], nz[0], nz[1]], spots: outside });
      side.measures = whole ? [] : this.measured(side);
      side.names = names(side, outside);
      y += side.h + 40;
      const plan = put({ id: "plan", title: "From above", note: phone ? "" : "same scale, left bank up", j: 1, k, x0: left, low: -across, high: across, box: [nx[0], nx[1], ny[0], ny[1]], spots: outside, rings: swing });
      plan.names = [...names(plan, outside), ...this.ringed(plan, swing)];
      y += plan.h + 40;
      const gap = 24, w = phone ? this.width : (this.width - gap) / 2;
      for (const [n, [id, title, j, ends]] of [["near-side", "The machine nearer, from the side", 2, nz], ["near-plan", "The machine nearer, from above", 1, ny]].entries()) {
        if (whole && id === "near-side") continue;
        const zoom = Math.min(w / (nx[1] - nx[0]), tall / (ends[1] - ends[0])), mid = (nx[0] + nx[1]) / 2;
        const here = this.moved.filter((s) => inside(s) || this.held === s.key && this.from === id);
        const v = put({ id, title, j, k: zoom, x0: mid - w / 2 / zoom, low: ends[0], high: ends[1], w, left: phone ? 0 : n * (w + gap), spots: here });
        v.names = names(v, here);
        if (phone || n) y += Math.max(...views.slice(phone ? -1 : -2).map((q) => q.h)) + 40;
      }
      return { views, height: y - 12 };
    },
    told() {
      const s = this.moved.find((p) => p.key === (this.held || this.shown));
      if (!s) return null;
      const v = this.sheet.views.find((q) => q.id === this.from && q.spots.some((p) => p.key === s.key)) || this.sheet.views.find((q) => q.spots.some((p) => p.key === s.key));
      if (!v) return null;
      const x = this.px(v, s.at[0]), y = this.py(v, s.at[v.j]), right = x > v.w / 2;
      return { view: v.id, x: x + (right ? 8 : -8) * (this.width < 620 ? 0 : 1), y: y < 46 ? y + 34 : y - 30, anchor: right ? "end" : "start", text: this.say(s) };
    },
  },
  methods: {
    nearer() { // ends of what is drawn nearer: x, y, z
      const r = this.rest, x = bounds(r.side, 0), size = Math.max(x[1] - x[0], bounds(r.side, 1)[1] - bounds(r.side, 1)[0]);
      const mid = (x[0] + x[1]) / 2, close = this.spots.filter((s) => Math.abs(s.at[0] - mid) < 1.6 * size && Math.abs(s.at[1]) < 1.6 * size);
      const points = [...r.side.map((p) => [p[0], 0, p[1]]), ...r.plan.map((p) => [p[0], p[1], r.height]), ...close.map((s) => s.at)];
      const room = 0.28 * size;
      return [0, 1, 2].map((i) => { const b = bounds(points, i); return [b[0] - room, b[1] + room]; });
    },
    deep() { // scale and left end of the machine drawn from bed to surface on a phone; null where that shows too little
      const { top, low, near: [nx, , nz] } = this.frame, room = this.width - 120, edge = Math.max(nx[1] - 0.2 * (nx[1] - nx[0]), bounds(this.rest.side, 0)[1]);
      const k = Math.min(room / (nx[1] - nx[0]), 340 / (top - low)), nearest = Math.min(this.width / (nx[1] - nx[0]), 300 / (nz[1] - nz[0]));
      return k < 0.3 * nearest ? null : { k, x0: edge - room / k };
    },
    cut(v, spots) { // lines that leave the view for an anchor that is not in it: where they leave, and what is said of it
      const found = [];
      for (const s of spots.filter((p) => p.kind === "anchor" && this.px(v, p.at[0]) < 0)) {
        const line = this.rest.lines.find((l) => Math.hypot(...l.at[0].map((x, i) => x - s.at[i])) < 0.02);
        const n = line ? line.at.findIndex((p) => p[0] >= v.x0) : -1;
        if (n < 1) continue;
        const [a, b] = [line.at[n - 1], line.at[n]], share = (v.x0 - a[0]) / (b[0] - a[0] || 1);
        const y = this.py(v, a[2] + share * (b[2] - a[2])), far = `${s.own[0].toFixed(1)}\u202fm ahead, ${s.at[2].toFixed(1)}\u202fm up`;
        const same = found.find((c) => c.far === far && Math.abs(c.y - y) < 14);
        if (same) same.said.push(s.said); else found.push({ y, far, said: [s.said] });
      }
      found.sort((a, b) => a.y - b.y);
      let last = -99;
      for (const c of found) {
        const first = Math.max(c.y - 30, last + 30);
        last = first;
        c.names = [[c.said.join(", "), first], [c.far, first + 16]].map(([text, y]) => ({ x: 4, y, anchor: "start", text }));
        c.box = [0, 7.2 * Math.max(...c.names.map((t) => t.text.length)), first - 12, first + 20];
      }
      return found;
    },
    ledges(v) { // ground below each anchor that stands above the bed; only its height is known
      const found = new Map();
      for (const s of this.moved) {
        const up = s.at[2] * v.k;
        if (s.kind !== "anchor" || up < 2) continue;
        const x = this.px(v, s.at[0]), y = this.py(v, s.at[2]), top = 10, foot = top + 0.3 * up;
        found.set(`${Math.round(x)} ${Math.round(y)}`, `M${(x - foot).toFixed(1)} ${(y + up).toFixed(1)}L${(x - top).toFixed(1)} ${y.toFixed(1)}H${(x + top).toFixed(1)}L${(x + foot).toFixed(1)} ${(y + up).toFixed(1)}Z`);
      }
      return [...found.values()];
    },
    px: (v, x) => (x - v.x0) * v.k,
    py: (v, y) => (v.high - y) * v.k,
    way(v, points) { return points.map((p, i) => `${i ? "L" : "M"}${this.px(v, p[0]).toFixed(1)} ${this.py(v, p[v.j]).toFixed(1)}`).join(""); },
    body(v, r) { return (v.j === 2 ? r.side : r.plan).map((p, i) => `${i ? "L" : "M"}${this.px(v, p[0]).toFixed(1)} ${this.py(v, p[1]).toFixed(1)}`).join("") + "Z"; },
    scaled(v) {
      const wanted = 0.16 * v.w / v.k, ten = 10 ** Math.floor(Math.log10(wanted)), step = [5, 2, 1].find((n) => n * ten <= wanted) * ten;
      return { w: step * v.k, text: `${+step.toPrecision(2)}\u202fm` };
    },
    measured(v) {
      const r = this.rest;
      if (!r.settled) return [];
      const x = this.px(v, bounds(r.side, 0)[1]) + 20, [low, high] = bounds(r.side, 1);
      const rows = [[r.depth, high, `cover ${r.cover.toFixed(2)}\u202fm`], [low, 0, `bed ${r.clearance.toFixed(2)}\u202fm`]].map(([a, b, text]) => ({ x, y1: this.py(v, a), y2: this.py(v, b), text, y: (this.py(v, a) + this.py(v, b)) / 2 + 4 }));
      if (rows[1].y - rows[0].y < 15) { rows[0].y = Math.min(rows[0].y, rows[1].y - 15); }
      return rows;
    },
    ringed(v, swing) {
      if (swing.length < 2 || swing[1] * v.k < 18) return [];
      return [{ x: this.px(v, 0) + Math.max(...swing) * v.k + 8, y: this.py(v, 0) - 6, anchor: "start", text: "watch circle" }];
    },
    named(v, spots, kept = []) { // names of spots; those at one place share a label, which keeps clear of others and of the machine
      const groups = [];
      for (const s of spots) {
        const x = this.px(v, s.at[0]), y = this.py(v, s.at[v.j]);
        const g = groups.find((q) => Math.hypot(q.x - x, q.y - y) < 12);
        if (g) g.names.add(s.said); else groups.push({ x, y, names: new Set([s.said]) });
      }
      const shape = v.j === 2 ? this.rest.side : this.rest.plan, [x0, x1] = bounds(shape, 0), [y0, y1] = bounds(shape, 1);
      const duct = [this.px(v, x0) - 2, this.px(v, x1) + 2, this.py(v, y1) - 2, this.py(v, y0) + 2];
      const taken = [duct, ...kept, ...groups.map((g) => [g.x - 7, g.x + 7, g.y - 7, g.y + 7])];
      const clear = (b) => b[0] >= 2 && b[1] <= v.w - 2 && b[2] >= 1 && b[3] <= v.h - 2 && !taken.some((t) => b[0] < t[1] && b[1] > t[0] && b[2] < t[3] && b[3] > t[2]);
      return groups.map((g) => {
        const text = [...g.names].join(", "), wide = 6.3 * text.length;
        const places = [-10, 18, 4, -24, 32, -38, 46, -52, 60].flatMap((dy) => [[1, dy], [-1, dy]]).map(([side, dy]) => {
          const x = g.x + side * 10, y = g.y + dy;
          return { x, y, anchor: side > 0 ? "start" : "end", text, box: [side > 0 ? x : x - wide, side > 0 ? x + wide : x, y - 11, y + 4] };
        });
        const best = places.find((q) => clear(q.box)) || places[0];
        taken.push(best.box);
        return best;
      });
    },
    say(s) {
      const [a, b, c] = s.own.map((v, i) => v + (s.kind === "anchor" && i === 0 ? -1 : 1) * (s.at[i] - s.base[i]));
      const f = (x) => x.toFixed(2).replace("-", "\u2212");
      const names = s.kind === "anchor" ? ["ahead", "left", "up"] : ["aft", "left", "up"];
      return `${s.said}: ${f(a)} ${names[0]}, ${f(b)} ${names[1]}, ${f(c)} ${names[2]}, m`;
    },
    slide(event, done) {
      this.sliding = +event.target.value;
      clearTimeout(this.soonSpeed);
      this.soonSpeed = setTimeout(() => this.$emit("asked", { speed: +event.target.value }), done ? 0 : 120);
    },
    grab(v, s, event) {
      event.preventDefault();
      const target = event.currentTarget;
      target.focus();
      target.setPointerCapture(event.pointerId);
      const from = [event.clientX, event.clientY], box = this.$refs.box.querySelector("svg").getBoundingClientRect(), shrink = this.width / box.width, k = v.k;
      this.held = s.key;
      this.from = v.id;
      this.frozen = this.frame;
      this.begun = s.at;
      this.by = [0, 0, 0];
      const move = (e) => {
        const by = [0, 0, 0];
        by[0] = +(((e.clientX - from[0]) * shrink) / k).toFixed(2);
        by[v.j] = +((-(e.clientY - from[1]) * shrink) / k).toFixed(2);
        if (by.some((x, i) => x !== this.by[i])) { this.by = by; this.tell(s, by, false); }
      };
      const end = (kept) => () => {
        target.removeEventListener("pointermove", move);
        target.removeEventListener("pointerup", up);
        target.removeEventListener("pointercancel", off);
        this.settle(s, kept);
      };
      const up = end(true), off = end(false);
      target.addEventListener("pointermove", move);
      target.addEventListener("pointerup", up);
      target.addEventListener("pointercancel", off);
    },
    press(v, s, event) {
      const step = { ArrowRight: [0, 1], ArrowLeft: [0, -1], ArrowUp: [v.j, 1], ArrowDown: [v.j, -1] }[event.key];
      if (event.key === "Escape" && this.held) { this.by = [0, 0, 0]; this.settle(s, true); return; }
      if (!step) return;
      event.preventDefault();
      if (this.held !== s.key) { this.frozen = this.frame; this.begun = s.at; this.by = [0, 0, 0]; this.held = s.key; }
      this.from = v.id;
      const by = [...this.by];
      by[step[0]] = +(by[step[0]] + step[1] * (event.shiftKey ? 0.5 : 0.05)).toFixed(2);
      this.by = by;
      this.tell(s, by, false);
      clearTimeout(this.later);
      this.later = setTimeout(() => this.settle(s, true), 700);
    },
    leave(s) {
      this.shown = "";
      if (this.held === s.key && this.later) this.settle(s, true);
    },
    settle(s, kept) {
      clearTimeout(this.later);
      this.later = null;
      const by = this.by;
      if (this.held !== s.key || !by) return;
      this.tell(s, kept ? by : [0, 0, 0], true);
      this.held = "";
      this.by = this.frozen = null;
    },
    tell(s, by, done) {
      clearTimeout(this.soon);
      const send = () => { this.sent = Date.now(); this.$emit("moved", { kind: s.kind, name: s.name, by, done }); };
      if (done || Date.now() - (this.sent || 0) > 120) send(); else this.soon = setTimeout(send, 120);
    },
  },
};
