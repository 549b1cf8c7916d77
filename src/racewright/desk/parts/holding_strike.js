// A strike from above, to scale, on its two time scales: the blow in milliseconds, then lines and log in seconds.
const STYLE = `
.holding-strike { display: grid; gap: .8rem; }
.holding-strike svg { display: block; width: 100%; user-select: none; }
.holding-strike text { font: 12px "Race Sans", "DejaVu Sans", sans-serif; fill: var(--ink); }
.holding-strike text.soft { fill: var(--soft); } .holding-strike .halo { paint-order: stroke; stroke: var(--paper); stroke-width: 4px; stroke-linejoin: round; }
.holding-strike .wet { paint-order: stroke; stroke: var(--water); stroke-width: 4px; stroke-linejoin: round; }
.holding-strike .water { fill: var(--water); } .holding-strike .duct { fill: var(--accent); fill-opacity: .85; stroke: var(--ink); stroke-width: .8; }
.holding-strike .home { fill: none; stroke: var(--soft); stroke-width: 1; stroke-dasharray: 4 4; }
.holding-strike .log { fill: var(--body); stroke: var(--ink); stroke-width: .8; } .holding-strike .way { fill: none; stroke: var(--soft); stroke-width: 1; stroke-dasharray: 2 3; }
.holding-strike .blow { stroke: var(--second); stroke-width: 3; fill: none; } .holding-strike .head { fill: var(--second); }
.holding-strike .pulse { fill: none; stroke: var(--second); stroke-width: 2; } .holding-strike .pulse.soft { stroke-dasharray: 6 4; }
.holding-strike .tension { fill: none; stroke: var(--accent); stroke-width: 2; } .holding-strike .band { fill: var(--accent); fill-opacity: .18; }
.holding-strike .limit { stroke: var(--ink); stroke-width: 1; stroke-dasharray: 3 2; } .holding-strike .now { stroke: var(--ink); stroke-width: 1.2; }
.holding-strike .rule { stroke: var(--rule); } .holding-strike .base { stroke: var(--soft); } .holding-strike .plate { fill: none; stroke: var(--rule); }
.holding-strike .bar { stroke: var(--ink); stroke-width: 1.4; fill: none; }
.holding-strike .run { display: flex; flex-wrap: wrap; gap: .5rem 1rem; align-items: center; } .holding-strike .run output { font-size: .84rem; color: var(--soft); }
.holding-strike .charts { display: grid; gap: 1rem 1.6rem; grid-template-columns: repeat(auto-fit, minmax(18rem, 1fr)); }
.holding-strike .scrub { width: 100%; accent-color: var(--accent); } .holding-strike label { font-size: .8rem; color: var(--soft); display: block; }
.holding-strike .charts .title { font-weight: 700; font-size: .88rem; }
`;
const BLOW = 3200, WAIT = 500; // time on the screen of the blow, and before the seconds begin [ms]

export default {
  template: `
<div class="holding-strike" ref="box">
  <div class="run">
    <button type="button" class="knob strong" @click="playing ? stop() : play()">{{ playing ? "Stop" : "Play both scales" }}</button>
    <button v-if="pulses.length" type="button" class="knob" @click="play('blow')">The blow alone</button>
    <button type="button" class="knob" @click="play('way')">The seconds alone</button>
    <output role="status">{{ said }}</output>
  </div>
  <svg :viewBox="'0 0 ' + width + ' ' + scene.h" :height="scene.h" role="img" :aria-label="'Log and machine from above, to scale. ' + said">
    <rect class="water" :width="width" :height="scene.h" />
    <path class="home" :d="shape(outline, [0, 0], 0)" />
    <path class="way" :d="trail" />
    <path class="duct" :d="shape(outline, at.machine, at.yaw)" />
    <circle v-if="attitude === 'upright'" class="log" :cx="x(at.log[0])" :cy="y(at.log[1])" :r="Math.max(3, diameter / 2 * scene.k)" />
    <path v-else class="log" :d="shape(bar, at.log, at.turn)" />
    <g v-if="blow" aria-hidden="true">
      <path class="blow" :d="'M' + blow.x2 + ' ' + blow.y2 + 'L' + blow.x1 + ' ' + blow.y1" />
      <path class="head" :d="blow.head" />
      <text class="wet" :x="blow.tx" :y="blow.ty" :text-anchor="blow.anchor" style="fill: var(--second)">{{ blow.text }}</text>
    </g>
    <text x="8" y="18" class="wet">{{ phase === "blow" ? "slowed to milliseconds" : "in seconds" }}: {{ clock }}</text>
    <path class="bar" :d="'M' + (width - 12 - scene.unit * scene.k) + ' ' + (scene.h - 12) + 'v4h' + scene.unit * scene.k + 'v-4'" />
    <text class="wet" :x="width - 12 - scene.unit * scene.k / 2" :y="scene.h - 16" text-anchor="middle">{{ scene.unit }}\u202fm</text>
    <text class="wet soft" x="8" :y="scene.h - 8">stream \u2192</text>
    <rect class="plate" x=".5" y=".5" :width="width - 1" :height="scene.h - 1" />
  </svg>
  <div class="charts">
    <figure v-for="c in charts" :key="c.id">
      <figcaption class="title">{{ c.title }}</figcaption>
      <svg :viewBox="'0 0 ' + c.w + ' ' + c.h" role="img" :aria-label="c.title + '. Horizontal: ' + c.across + '; vertical: ' + c.up">
        <g v-for="t in c.ys" :key="'y' + t.v"><line class="rule" :x1="c.l" :x2="c.w - 8" :y1="t.p" :y2="t.p" /><text class="soft" :x="c.l - 6" :y="t.p + 4" text-anchor="end">{{ t.text }}</text></g>
        <g v-for="t in c.xs" :key="'x' + t.v"><line class="base" :x1="t.p" :x2="t.p" :y1="c.h - c.b" :y2="c.h - c.b + 4" /><text class="soft" :x="t.p" :y="c.h - c.b + 17" text-anchor="middle">{{ t.text }}</text></g>
        <line class="base" :x1="c.l" :x2="c.w - 8" :y1="c.h - c.b" :y2="c.h - c.b" />
        <rect v-if="c.band" class="band" :x="c.l" :width="c.w - 8 - c.l" :y="c.band[0]" :height="Math.max(1.5, c.band[1] - c.band[0])" />
        <line v-if="c.limit" class="limit" :x1="c.l" :x2="c.w - 8" :y1="c.limit" :y2="c.limit" />
        <path v-for="(p, n) in c.paths" :key="n" :class="p.kind" :d="p.d" />
        <line class="now" :x1="c.now" :x2="c.now" :y1="22" :y2="c.h - c.b" />
        <text v-for="(t, n) in c.texts" :key="'t' + n" class="halo" :x="t.x" :y="t.y" :text-anchor="t.anchor">{{ t.text }}</text>
        <text class="soft" :x="c.w - 8" :y="c.h - 4" text-anchor="end">{{ c.across }}</text>
        <text class="soft" x="0" y="12">{{ c.up }}</text>
      </svg>
      <label>{{ c.scrub }} <input class="scrub" type="range" min="0" max="1" step="any" :aria-label="c.scrub" :value="c.share" @input="scrub(c.id, +$event.target.value)"></label>
    </figure>
  </div>
</div>`,
  props: { outline: Array, attitude: String, length: Number, diameter: Number, point: Array, normal: Array, pulses: Array, way: Object, slow: Array, limit: Number, ending: String, place: String },
  data: () => ({ width: 700, phase: "blow", ms: 0, s: 0, playing: false }),
  mounted() {
    if (!document.getElementById("holding-strike-style")) {
      const style = document.createElement("style");
      style.id = "holding-strike-style";
      style.textContent = STYLE;
      document.head.append(style);
    }
    this.watcher = new ResizeObserver(() => { const w = this.$refs.box?.clientWidth; if (w) this.width = w; });
    this.watcher.observe(this.$refs.box);
    this.width = this.$refs.box.clientWidth || 700;
    this.rewind();
  },
  unmounted() { this.watcher?.disconnect(); cancelAnimationFrame(this.frame); },
  watch: { way() { this.stop(); this.rewind(); } },
  computed: {
    blowEnd() { return Math.max(...this.pulses.map((p) => p.time_s[p.time_s.length - 1]), 1e-6); },
    wayEnd() { return this.way.time_s[this.way.time_s.length - 1] || 1; },
    bar() { const a = this.length / 2, b = this.diameter / 2; return [[-a, -b], [a, -b], [a, b], [-a, b]]; },
    scene() {
      const half = this.attitude === "upright" ? this.diameter : this.length / 2, w = this.way;
      const xs = [...w.log_m.map((p) => p[0]), ...w.machine_m.map((p) => p[0])], ys = [...w.log_m.map((p) => p[1]), ...w.machine_m.map((p) => p[1])];
      const reach = Math.max(...this.outline.flat().map(Math.abs));
      const left = Math.min(...xs) - half - 0.4, right = Math.max(...xs, reach) + half + 0.4;
      const up = Math.max(reach, Math.max(...ys) + half * 0.6) + 0.5, down = Math.min(-reach, Math.min(...ys) - half * 0.6) - 0.5;
      const k = Math.min(this.width / (right - left), (this.width < 600 ? 300 : 340) / (up - down));
      const mid = (left + right) / 2;
      return { k, x0: mid - this.width / 2 / k, up, h: (up - down) * k, unit: [5, 2, 1, 0.5].find((u) => u * k < 0.25 * this.width) || 0.5 };
    },
    at() { // log and machine now
      const w = this.way, t = this.phase === "blow" ? 0 : this.s;
      let i = w.time_s.findIndex((v) => v >= t);
      if (i < 0) i = w.time_s.length - 1;
      const j = Math.max(0, i - 1), span = w.time_s[i] - w.time_s[j], f = span > 0 ? (t - w.time_s[j]) / span : 0;
      const mix = (a, b) => a + f * (b - a), two = (p) => [mix(p[j][0], p[i][0]), mix(p[j][1], p[i][1])];
      return { log: two(w.log_m), turn: mix(w.log_turn_rad[j], w.log_turn_rad[i]), machine: two(w.machine_m), yaw: mix(w.machine_turn_rad[j], w.machine_turn_rad[i]), tension: mix(w.tension_N[j], w.tension_N[i]) };
    },
    trail() { return this.way.log_m.map((p, i) => `${i ? "L" : "M"}${this.x(p[0]).toFixed(1)} ${this.y(p[1]).toFixed(1)}`).join(""); },
    forces() { return this.pulses.map((p) => this.read(p.time_s, p.force_N, this.ms)); },
    blow() { // force on the machine, against the normal, on a scale of its own
      if (this.phase !== "blow" || !this.pulses.length || !this.normal.length) return null;
      const most = Math.max(...this.pulses.flatMap((p) => p.force_N)), now = Math.max(...this.forces);
      const size = 22 + 60 * (now / most), [nx, ny] = this.normal, x1 = this.x(this.point[0]), y1 = this.y(this.point[1]);
      const x2 = x1 + nx * size, y2 = y1 - ny * size, right = x1 < this.width * 0.6;
      const head = `M${x1} ${y1}L${x1 + 11 * nx + 5 * ny} ${y1 - 11 * ny + 5 * nx}L${x1 + 11 * nx - 5 * ny} ${y1 - 11 * ny - 5 * nx}Z`;
      return { x1, y1, x2, y2, head, anchor: right ? "start" : "end", tx: right ? Math.max(8, x1 - 40) : x1 + 40, ty: this.y(Math.max(...this.outline.map((p) => p[1]))) - 10, text: now > 0 ? `${this.forces.filter((f) => f > 0).map((f) => this.kilo(f)).join(" or ")}${this.forces.every((f) => f > 0) ? ", by contact" : ""}` : `struck here: ${this.place}` };
    },
    clock() { return this.phase === "blow" ? `${(1000 * this.ms).toFixed(1)}\u202fms` : `${this.s.toFixed(2)}\u202fs`; },
    said() {
      if (this.phase === "blow") return this.pulses.length ? `Blow, ${this.clock} after the touch.` : "The log passes by.";
      const over = this.s >= this.wayEnd * 0.999;
      return over ? `After ${this.clock}: ${this.ending}.` : `${this.clock} after the touch: slow tension ${this.kilo(this.at.tension)}.`;
    },
    charts() {
      const w = this.width < 640 ? this.width : (this.width - 26) / 2, found = [];
      if (this.pulses.length) {
        const c = this.frameOf("blow", w, 1000 * this.blowEnd, Math.max(...this.pulses.flatMap((p) => p.force_N)) / 1000);
        Object.assign(c, { title: "The blow, at the place struck", across: "milliseconds since the touch", up: "force, kN", scrub: "through the milliseconds", now: c.x(1000 * this.ms), share: this.ms / this.blowEnd });
        c.paths = this.pulses.map((p, n) => ({ kind: n ? "pulse" : "pulse soft", d: p.time_s.map((t, i) => `${i ? "L" : "M"}${c.x(1000 * t).toFixed(1)} ${c.y(p.force_N[i] / 1000).toFixed(1)}`).join("") }));
        c.texts = this.pulses.map((p) => { const m = p.force_N.indexOf(Math.max(...p.force_N)), x = c.x(1000 * p.time_s[m]), late = x > 0.5 * c.w; return { x: late ? x : x + 8, y: c.y(p.force_N[m] / 1000) - 6, anchor: late ? "middle" : "start", text: `${p.name}: ${this.kilo(p.force_N[m])}` }; });
        found.push(c);
      }
      const top = Math.max(...this.way.tension_N, ...(this.slow || []), this.limit && this.limit < 4 * Math.max(...this.way.tension_N) ? this.limit : 0) / 1000;
      const c = this.frameOf("way", w, this.wayEnd, top, Math.min(...this.way.tension_N) / 1000), most = this.way.tension_N.indexOf(Math.max(...this.way.tension_N));
      Object.assign(c, { title: "The lines, afterwards: slow tension", across: "seconds since the touch", up: "slow line tension, kN", scrub: "through the seconds", now: c.x(this.s), share: this.s / this.wayEnd });
      c.paths = [{ kind: "tension", d: this.way.time_s.map((t, i) => `${i ? "L" : "M"}${c.x(t).toFixed(1)} ${c.y(this.way.tension_N[i] / 1000).toFixed(1)}`).join("") }];
      const x = c.x(this.way.time_s[most]);
      c.texts = [{ x: x > c.w * 0.55 ? x - 6 : x + 8, y: c.y(this.way.tension_N[most] / 1000) - 6, anchor: x > c.w * 0.55 ? "end" : "start", text: `${this.kilo(this.way.tension_N[most])} after ${this.way.time_s[most].toFixed(2)}\u202fs` }];
      if (this.slow) c.band = [c.y(this.slow[1] / 1000), c.y(this.slow[0] / 1000)];
      if (this.limit) {
        const in_sight = this.limit / 1000 <= top * 1.001;
        if (in_sight) c.limit = c.y(this.limit / 1000);
        c.texts.push({ x: c.w - 10, y: in_sight ? c.y(this.limit / 1000) - 5 : 24, anchor: "end", text: `first link parts at ${this.kilo(this.limit)}${in_sight ? "" : ", above"}` });
      }
      found.push(c);
      return found;
    },
  },
  methods: {
    x(v) { return (v - this.scene.x0) * this.scene.k; },
    y(v) { return (this.scene.up - v) * this.scene.k; },
    shape(points, at, turn) {
      const c = Math.cos(turn), s = Math.sin(turn);
      return points.map(([a, b], i) => `${i ? "L" : "M"}${this.x(at[0] + c * a - s * b).toFixed(1)} ${this.y(at[1] + s * a + c * b).toFixed(1)}`).join("") + "Z";
    },
    kilo(n) { const k = n / 1000; return `${k.toFixed(Math.abs(k) < 10 ? 2 : Math.abs(k) < 100 ? 1 : 0)}\u202fkN`; },
    read(t, f, at) {
      const i = t.findIndex((v) => v >= at);
      if (i < 0) return 0;
      if (i === 0) return f[0];
      return f[i - 1] + ((at - t[i - 1]) / (t[i] - t[i - 1])) * (f[i] - f[i - 1]);
    },
    frameOf(id, w, far, top, low = 0) {
      const l = 44, b = 36, h = 230, high = 1.12 * top || 1, under = 1.1 * Math.min(0, low);
      const x = (v) => l + (v / far) * (w - 8 - l), y = (v) => h - b - ((v - under) / (high - under)) * (h - b - 24);
      const ticks = (most, count) => { const raw = most / count, ten = 10 ** Math.floor(Math.log10(raw)), step = [1, 2, 5, 10].find((n) => n * ten >= raw) * ten; return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, i) => ({ v: i * step, text: +(i * step).toPrecision(3) + "" })); };
      return { id, w, h, l, b, x, y, texts: [], paths: [], xs: ticks(far, 5).map((t) => ({ ...t, p: x(t.v) })), ys: ticks(high, 4).map((t) => ({ ...t, p: y(t.v) })) };
    },
    rewind() { this.ms = 0; this.s = 0; this.phase = this.pulses.length ? "blow" : "way"; },
    scrub(id, share) {
      this.stop();
      this.phase = id;
      if (id === "blow") this.ms = share * this.blowEnd; else this.s = share * this.wayEnd;
    },
    stop() { this.playing = false; cancelAnimationFrame(this.frame); },
    play(only) {
      this.stop();
      this.rewind();
      this.playing = true;
      const wayTime = 1000 * Math.min(20, Math.max(this.wayEnd, 4)), blowTime = only === "way" || !this.pulses.length ? 0 : BLOW;
      let begun = null;
      const step = (now) => {
        if (!this.playing) return;
        begun ??= now;
        const passed = now - begun;
        if (passed < blowTime) { this.phase = "blow"; this.ms = (passed / blowTime) * this.blowEnd; }
        else {
          this.ms = this.blowEnd;
          if (only === "blow") { this.stop(); return; }
          const later = Math.max(0, passed - blowTime - (blowTime ? WAIT : 0));
          if (later > 0 || !blowTime) this.phase = "way";
          this.s = Math.min(1, later / wayTime) * this.wayEnd;
          if (later >= wayTime) { this.stop(); return; }
        }
        this.frame = requestAnimationFrame(step);
      };
      this.frame = requestAnimationFrame(step);
    },
  },
};
