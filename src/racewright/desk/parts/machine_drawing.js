// The machine from the side in its water, its rows unrolled, and handles on both.
const STYLE = `
.machine-fields { display: grid; gap: .45rem .9rem; grid-template-columns: repeat(auto-fill, minmax(10.5rem, 1fr)); }
.machine-stack > * + * { margin-top: 1.1rem; }
.machine-side { display: grid; gap: 1.8rem; }
.machine-fields .help { display: none; }
.machine-fields .q-field--with-bottom { padding-bottom: 16px; }
.machine-drawing { position: relative; }
.machine-drawing svg { display: block; width: 100%; touch-action: pan-y; user-select: none; }
.machine-drawing text { font: 12px "Race Sans", "DejaVu Sans", sans-serif; fill: var(--ink); }
.machine-drawing .soft { fill: var(--soft); }
.machine-drawing .water { fill: var(--water); }
.machine-drawing .line { fill: none; stroke: var(--accent); stroke-width: 1.1; vector-effect: non-scaling-stroke; }
.machine-drawing .past { stroke: var(--soft); stroke-dasharray: 5 4; stroke-width: .9; }
.machine-drawing .duct { fill: var(--accent); } .machine-drawing .hub { fill: var(--body); }
.machine-drawing .vane { fill: var(--paper); stroke: var(--body); stroke-width: 1.4; fill-opacity: .75; }
.machine-drawing .rotor { fill: var(--second); fill-opacity: .8; stroke: var(--second); stroke-width: 1.2; }
.machine-drawing .axis { stroke: var(--ink); stroke-width: .7; stroke-dasharray: 12 3 2 3; }
.machine-drawing .arrow { fill: none; stroke-width: 2; }
.machine-drawing .handle { cursor: grab; outline: none; }
.machine-drawing .handle circle.spot { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
.machine-drawing .handle circle.reach { fill: transparent; }
.machine-drawing .handle path { fill: none; stroke: var(--ink); stroke-width: 1.6; }
.machine-drawing .handle:hover circle.spot, .machine-drawing .handle.held circle.spot { fill: var(--ink); }
.machine-drawing .handle:focus-visible circle.spot { stroke: var(--second); stroke-width: 4; fill: var(--paper); }
.machine-drawing .told { paint-order: stroke; stroke: var(--paper); stroke-width: 4px; stroke-linejoin: round; font-weight: 700; }
.machine-drawing .plate { fill: none; stroke: var(--rule); }
.machine-drawing .old { opacity: .45; }
.machine-drawing .wait { min-height: 18rem; display: flex; align-items: center; color: var(--soft); }
`;
const path = (x, y, close) => x.map((v, i) => `${i ? "L" : "M"}${v.toFixed(4)} ${y[i].toFixed(4)}`).join("") + (close ? "Z" : "");

export default {
  template: `
<div class="machine-drawing" ref="box">
  <div v-if="!shape" class="wait">The drawing comes with the first answer.</div>
  <svg v-else :viewBox="'0 0 ' + width + ' ' + (side.height + row.height)" :height="side.height + row.height"
       role="group" aria-label="The machine from the side, water left to right, and its rows unrolled; handles change it">
    <defs>
      <clipPath :id="uid"><rect x="0" y="0" :width="width" :height="side.height" /></clipPath>
      <marker v-for="c in ['accent', 'ink', 'second']" :key="c" :id="uid + c" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="5" markerHeight="5" orient="auto-start-reverse">
        <path d="M0 0L8 4L0 8Z" :style="{fill: 'var(--' + c + ')'}" /></marker>
    </defs>
    <rect class="water" x="0" y="0" :width="width" :height="side.height" />
    <g :clip-path="'url(#' + uid + ')'">
      <g v-for="s in [1, -1]" :key="s" :transform="'translate(' + side.x0 + ' ' + side.y0 + ') scale(' + side.k + ' ' + (-s * side.k) + ')'">
        <g v-if="field" :class="{old: stale}" aria-hidden="true">
          <path v-for="(b, i) in field.bands" :key="'b' + i" :d="b.path" fill-rule="evenodd" :style="{fill: tone(b.tone)}" />
          <path v-for="(l, i) in field.lines" :key="'l' + i" :d="trace(l.x_m, l.r_m)" class="line" :class="{past: !l.captured}" />
        </g>
        <path :d="sided(vanes)" class="vane" vector-effect="non-scaling-stroke" />
        <path :d="sided(rotor)" class="rotor" vector-effect="non-scaling-stroke" />
        <path :d="closed(shape.duct_x_m, shape.duct_r_m)" class="duct" />
        <path :d="trace(shape.hub_x_m, shape.hub_r_m) + 'Z'" class="hub" />
      </g>
      <line class="axis" x1="0" :x2="width" :y1="side.y0" :y2="side.y0" />
      <g v-if="speed">
        <line x1="10" :x2="10 + Math.min(80, width * .14)" :y1="side.y0" :y2="side.y0" class="arrow" style="stroke: var(--ink)" :marker-end="'url(#' + uid + 'ink)'" />
        <text x="10" :y="side.y0 - 9" class="told">{{ speed }}</text>
      </g>
    </g>
    <g v-if="field" aria-hidden="true" :transform="'translate(0 ' + (side.height - 18) + ')'">
      <rect x="0" y="-8" :width="width" height="26" style="fill: var(--paper); opacity: .82" />
      <g v-for="(b, i) in field.bands" :key="i">
        <rect :x="key.x + i * key.w" y="0" :width="key.w" height="7" :style="{fill: tone(b.tone)}" />
        <text v-if="i && (i % key.every === 0)" :x="key.x + i * key.w" y="16" text-anchor="middle" style="font-size: 10.5px">{{ kilo(b.low_Pa) }}</text>
      </g>
      <text x="8" y="9" style="font-size: 11px">pressure, kPa</text>
    </g>
    <rect class="plate" x=".5" y=".5" :width="width - 1" :height="side.height - 1" />

    <g v-if="vanes && rotor" :transform="'translate(0 ' + side.height + ')'">
      <text x="0" y="20" class="soft">{{ width < 600 ? "Unrolled: vanes, then blades, turning upwards" : "Unrolled at mid radius: vanes, then blades, which turn upwards" }}</text>
      <g v-for="(r, which) in {vane: vanes, rotor: rotor}" :key="which">
        <path v-for="n in [-1, 0, 1]" :key="n" :d="flat(r, n)" :class="which" />
      </g>
      <template v-if="arrows">
        <g v-for="(a, i) in arrows" :key="i">
          <line :x1="a.x1" :y1="a.y1" :x2="a.x2" :y2="a.y2" class="arrow" :style="{stroke: 'var(--' + a.colour + ')'}" :marker-end="'url(#' + uid + a.colour + ')'" />
          <text :x="a.tx" :y="a.ty" :text-anchor="a.anchor" class="told" :style="{fill: 'var(--' + a.colour + ')', fontWeight: 400}">{{ a.text }}</text>
        </g>
      </template>
    </g>

    <g v-for="h in placed" :key="h.name" class="handle" :class="{held: held === h.name}" tabindex="0" role="slider"
       :aria-label="h.label" :aria-valuenow="h.shown" :aria-valuemin="h.low" :aria-valuemax="h.high" :aria-valuetext="say(h)"
       :transform="'translate(' + h.x + ' ' + h.y + ')'" @pointerdown="grab(h, $event)" @keydown="press(h, $event)" @focus="shown = h.name" @blur="leave(h)"
       @pointerenter="shown = h.name" @pointerleave="shown = ''">
      <title>{{ say(h) }}</title>
      <circle class="reach" r="15" /><circle class="spot" r="6.5" />
      <path :d="h.upright ? 'M-4 -11L0 -15L4 -11M-4 11L0 15L4 11' : 'M-11 -4L-15 0L-11 4M11 -4L15 0L11 4'" />
    </g>
    <text v-if="told" :x="told.x" :y="told.y" :text-anchor="told.anchor" class="told" style="pointer-events: none">{{ told.text }}</text>
  </svg>
</div>`,
  props: { shape: Object, vanes: Object, rotor: Object, triangle: Object, field: Object, stale: Boolean, handles: Array, speed: String },
  data: () => ({ width: 900, held: "", shown: "", value: null, waits: false, uid: "m" + Math.random().toString(36).slice(2) }),
  mounted() {
    if (!document.getElementById("machine-drawing-style")) {
      const style = document.createElement("style");
      style.id = "machine-drawing-style";
      style.textContent = STYLE;
      document.head.append(style);
    }
    this.watcher = new ResizeObserver(() => { const w = this.$refs.box?.clientWidth; if (w) this.width = w; });
    this.watcher.observe(this.$refs.box);
    this.width = this.$refs.box.clientWidth || 900;
  },
  unmounted() { this.watcher?.disconnect(); clearTimeout(this.later); },
  watch: {
    handles() { // the desk has taken what was let go, or refused it
      if (!this.waits) return;
      this.waits = false;
      this.held = "";
      this.value = null;
    },
  },
  computed: {
    outer() { return Math.max(...this.shape.duct_r_m); },
    side() {
      const s = this.shape, phone = this.width < 600;
      const from = Math.min(...s.duct_x_m, ...s.hub_x_m), to = Math.max(...s.duct_x_m, ...s.hub_x_m);
      const ahead = (phone ? 0.45 : 1.35) * this.outer, behind = (phone ? 0.4 : 1.6) * this.outer;
      const k = this.width / (to - from + ahead + behind), up = 1.42 * this.outer;
      return { k, x0: (ahead - from) * k, y0: up * k, height: 2 * up * k + (phone ? 26 : 0) };
    },
    row() { // unrolled rows, to the same scale or twice of it
      if (!this.vanes || !this.rotor) return { height: 0 };
      const pitch = Math.max(this.vanes.pitch_m, this.rotor.pitch_m), phone = this.width < 600;
      const span = Math.max(...this.rotor.along_m) - Math.min(...this.vanes.along_m);
      const k = Math.min((phone ? 0.36 : 0.4) * this.width / span, 330 / (2.0 * pitch));
      const x0 = (phone ? 0.05 : 0.1) * this.width - Math.min(...this.vanes.along_m) * k;
      return { k, x0, y0: 62 + 1.06 * pitch * k, height: 88 + 2.12 * pitch * k };
    },
    key() { // of the pressure colours
      const n = this.field.bands.length, x = 110, w = Math.min(44, (this.width - x - 12) / n);
      return { x, w, every: w < 15 ? 4 : w < 24 ? 3 : w < 36 ? 2 : 1 };
    },
    arrows() {
      const t = this.triangle;
      if (!t) return null;
      const phone = this.width < 600, u = t.blade, k = Math.min((phone ? 130 : 190) / Math.max(u, 1e-9), (phone ? 0.2 : 0.24) * this.width / Math.max(t.axial, 1e-9));
      const x = this.row.x0 + Math.max(...this.rotor.along_m) * this.row.k + (phone ? 20 : 0.1 * this.width), y = this.row.y0 - 8;
      const ends = (sx, sy, ex, ey) => ({ x1: x + sx * k, y1: y - sy * k, x2: x + ex * k, y2: y - ey * k });
      const sorted = [
        { ...ends(0, 0, t.axial, t.swirl), colour: "accent", text: `flow ${t.flow}` },
        { ...ends(t.axial, t.swirl - u, t.axial, t.swirl), colour: "ink", text: `blade ${t.wheel}` },
        { ...ends(0, 0, t.axial, t.swirl - u), colour: "second", text: `relative ${t.relative}` },
      ];
      const at = [sorted[0].y2 - 8, (sorted[1].y1 + sorted[1].y2) / 2 + 4, sorted[2].y2 + 14];
      return sorted.map((a, i) => ({ ...a, tx: phone ? Math.min(a.x2 + 8, this.width - 4) : a.x2 + 10, ty: at[i], anchor: phone && a.x2 + 110 > this.width ? "end" : "start" }));
    },
    placed() { return this.handles.map((h) => ({ ...h, ...this.spot(h) })).filter((h) => h.x !== undefined); },
    told() {
      const h = this.placed.find((p) => p.name === (this.held || this.shown));
      if (!h) return null;
      const right = h.x > this.width * 0.62;
      return { x: h.x + (right ? -20 : 20), y: h.y - 12 < 14 ? h.y + 24 : h.y - 12, anchor: right ? "end" : "start", text: this.say(h) };
    },
  },
  methods: {
    trace: (x, r) => path(x, r, false),
    closed: (x, r) => path(x, r, true),
    kilo: (p) => (p / 1000).toFixed(Math.abs(p) < 100 ? 1 : Math.abs(p) % 1000 ? 1 : 0).replace("-", "\u2212"),
    tone(t) { return `color-mix(in oklab, var(--${t < 0 ? "second" : "accent"}) ${Math.round(Math.min(1, Math.abs(t)) * 62)}%, var(--water))`; },
    sided(r) { return r ? path([...r.lead_m, ...[...r.trail_m].reverse()], [...r.radius_m, ...[...r.radius_m].reverse()], true) : ""; },
    flat(r, n) { const { k, x0, y0 } = this.row; return path(r.along_m.map((x) => x0 + x * k), r.around_m.map((y) => y0 - (y + n * r.pitch_m) * k), true); },
    say(h) { return `${h.label} ${h.decimals === 0 ? Math.round(h.shown) : h.shown.toFixed(h.decimals)}${h.unit ? " " + h.unit : ""}`.replace("-", "\u2212"); },
    spot(h) { // where a handle sits, and how a pull on it changes its value
      const shown = this.held === h.name && this.value !== null ? this.value : h.value;
      const { k, x0, y0 } = this.side, s = this.shape, moved = shown - h.value;
      if (h.name === "throat") return { shown, upright: true, x: x0 + s.throat_x_m * k, y: y0 + (s.throat_radius_m + moved / 2) * k, pull: [0, 2 / k] };
      if (h.name === "exit") return { shown, upright: true, x: x0 + s.exit_x_m * k, y: y0 - s.throat_radius_m * Math.sqrt(shown) * k, pull: [0, (-2 * Math.sqrt(shown)) / (k * s.throat_radius_m)] };
      const r = h.row === "vanes" ? this.vanes : this.rotor;
      if (!r) return {};
      const chord = h.name.match(/(hub|tip)_chord/);
      if (chord) {
        const i = chord[1] === "hub" ? 0 : r.radius_m.length - 1, turn = Math.max(0.2, Math.cos(r.stagger_rad[i]));
        const inset = (i ? -1 : 1) * 0.1 * (r.radius_m[r.radius_m.length - 1] - r.radius_m[0]);
        return { shown, x: x0 + (r.trail_m[i] + (moved * turn) / 2) * k, y: y0 - (r.radius_m[i] + inset) * k, pull: [2 / (k * turn), 0] };
      }
      const u = this.row, top = this.side.height, angle = (moved * Math.PI) / 180;
      if (h.name.endsWith("turned")) {
        const end = r.along_m.indexOf(Math.max(...r.along_m)), mid = (Math.max(...r.along_m) + Math.min(...r.along_m)) / 2;
        const dx = r.along_m[end] - mid, dy = r.around_m[end];
        const x = mid + dx * Math.cos(angle) - dy * Math.sin(angle), y = dx * Math.sin(angle) + dy * Math.cos(angle);
        return { shown, upright: true, x: u.x0 + x * u.k, y: top + u.y0 - y * u.k, pull: [0, (-180 / Math.PI) / (Math.max(dx, 1e-6) * u.k)] };
      }
      if (h.name.endsWith("count")) {
        const x = Math.min(...r.along_m), at = r.along_m.indexOf(x), whole = Math.round(shown);
        return { shown: whole, upright: true, x: u.x0 + x * u.k, y: top + u.y0 - (r.around_m[at] + (r.pitch_m * r.count) / whole) * u.k, pull: [0, whole * whole / (r.pitch_m * r.count * u.k)] };
      }
      if (h.name === "ratio" && this.arrows) {
        const a = this.arrows[1], size = Math.max(10, (a.y1 - a.y2) / h.value);
        return { shown, upright: true, x: a.x1, y: top + a.y2 + shown * size, pull: [0, 1 / size] };
      }
      return {};
    },
    clamp(h, v) { v = Math.min(h.high, Math.max(h.low, v)); return h.decimals === 0 ? Math.round(v) : +v.toFixed(h.decimals); },
    grab(h, event) {
      event.preventDefault();
      event.currentTarget.focus();
      event.currentTarget.setPointerCapture(event.pointerId);
      const from = [event.clientX, event.clientY], pull = h.pull, begun = h.shown, target = event.currentTarget;
      this.held = h.name;
      this.waits = false;
      this.value = null;
      let raw = begun;
      const move = (e) => {
        raw = begun + pull[0] * (e.clientX - from[0]) + pull[1] * (e.clientY - from[1]);
        const value = this.clamp(h, raw);
        if (value !== this.value) { this.value = value; this.tell(h, value, false); }
      };
      const end = (kept) => () => {
        target.removeEventListener("pointermove", move);
        target.removeEventListener("pointerup", up);
        target.removeEventListener("pointercancel", off);
        this.waits = this.value !== null && this.value !== begun;
        if (this.waits) this.tell(h, kept ? this.value : begun, true);
        else this.held = "";
        if (!kept || !this.waits) this.value = null;
      };
      const up = end(true), off = end(false);
      target.addEventListener("pointermove", move);
      target.addEventListener("pointerup", up);
      target.addEventListener("pointercancel", off);
    },
    press(h, event) {
      const step = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[event.key];
      if (!step) return;
      event.preventDefault();
      const before = this.held === h.name && this.value !== null ? this.value : h.value;
      this.held = h.name;
      this.waits = false;
      this.value = this.clamp(h, before + step * h.step);
      this.tell(h, this.value, false);
      clearTimeout(this.later);
      this.later = setTimeout(() => this.leave(h), 600);
    },
    leave(h) {
      clearTimeout(this.later);
      this.shown = "";
      if (this.held !== h.name || this.value === null || this.waits) return;
      this.waits = this.value !== h.value;
      if (this.waits) return this.tell(h, this.value, true);
      this.held = "";
      this.value = null;
    },
    tell(h, value, done) {
      clearTimeout(this.soon);
      const send = () => { this.sent = Date.now(); this.$emit("turned", { name: h.name, value, done }); };
      if (done || Date.now() - (this.sent || 0) > 80) send(); else this.soon = setTimeout(send, 80);
    },
  },
};
