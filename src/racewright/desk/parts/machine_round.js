// The machine in the round: turn, cut, pull apart. It is drawn when something changes, not all the time.
const STYLE = `
.machine-round { position: relative; }
.machine-round canvas { display: block; width: 100%; height: 26rem; background: var(--water); border: 1px solid var(--rule); cursor: move; touch-action: pan-y; }
.machine-round .bar { display: flex; flex-wrap: wrap; gap: .5rem 1.4rem; align-items: center; margin-top: .6rem; font-size: .84rem; }
.machine-round label { display: inline-flex; gap: .5rem; align-items: center; }
.machine-round input { accent-color: var(--accent); } .machine-round input[type=range] { width: 9rem; }
.machine-round .none { color: var(--soft); padding: 1rem 0; }
@media (max-width: 40rem) { .machine-round canvas { height: 20rem; } }
`;
const SHIFT = { vanes: -0.9, hub: 0, rotor: 0.75, duct: 1.9 };
const COLOUR = { duct: "--accent", hub: "--body", vanes: "--soft", rotor: "--second" };

export default {
  template: `
<div class="machine-round" ref="box">
  <canvas ref="canvas" tabindex="0" role="img" aria-label="The machine in the round; arrow keys turn it, plus and minus bring it nearer" @keydown="press"></canvas>
  <p v-if="none" class="none">{{ none }}</p>
  <div class="bar">
    <label><input type="checkbox" v-model="cut" @change="place" /> cut open</label>
    <label>pull apart <input type="range" min="0" max="1" step="0.02" v-model.number="apart" @input="place" aria-label="pull apart" /></label>
    <button v-for="v in ['oblique', 'side', 'upstream']" :key="v" type="button" class="knob" @click="look(v)">{{ v === 'upstream' ? 'from upstream' : v === 'side' ? 'from the side' : 'oblique' }}</button>
  </div>
</div>`,
  props: { solid: Object },
  data: () => ({ cut: true, apart: 0, none: "The solid comes with the first answer." }),
  mounted() {
    if (!document.getElementById("machine-round-style")) {
      const style = document.createElement("style");
      style.id = "machine-round-style";
      style.textContent = STYLE;
      document.head.append(style);
    }
  },
  unmounted() {
    cancelAnimationFrame(this.waits);
    this.seen?.disconnect();
    this.watcher?.disconnect();
    this.light?.disconnect();
    this.own?.renderer.dispose();
  },
  watch: {
    solid() {
      this.own && this.build();
      if (this.seen) return;
      this.seen = new IntersectionObserver((entries) => {
        this.sight = entries[entries.length - 1].isIntersecting;
        if (!this.sight) return;
        if (!this.begun) this.begin(); // the library is loaded when the place comes into sight
        else if (this.own) this.owed === "build" ? this.build() : this.draw();
      });
      this.seen.observe(this.$refs.canvas);
    },
  },
  methods: {
    async begin() {
      this.begun = true;
      const kit = await import("nicegui-scene");
      if (!this.$refs.canvas) return;
      const three = kit.THREE;
      let renderer;
      try {
        renderer = new three.WebGLRenderer({ canvas: this.$refs.canvas, antialias: true, alpha: true });
      } catch {
        this.none = "This browser cannot draw in the round (no WebGL); 'racewright export' writes the same solids.";
        return;
      }
      renderer.localClippingEnabled = true;
      renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
      const scene = new three.Scene(), camera = new three.PerspectiveCamera(32, 2, 0.01, 100);
      scene.add(new three.HemisphereLight(0xffffff, 0x8899a0, 1.9));
      const sun = new three.DirectionalLight(0xffffff, 1.6);
      camera.add(sun);
      sun.position.set(-1, 2, 2);
      scene.add(camera);
      const orbit = new kit.OrbitControls(camera, this.$refs.canvas);
      orbit.enablePan = false;
      orbit.enableZoom = false;
      orbit.addEventListener("change", () => this.draw());
      this.own = { three, renderer, scene, camera, orbit, parts: {}, plane: new three.Plane(new three.Vector3(0, 0, -1), 0), far: 1 };
      this.watcher = new ResizeObserver(() => this.fit());
      this.watcher.observe(this.$refs.canvas);
      let dark = document.body.classList.contains("body--dark");
      this.light = new MutationObserver(() => { // the kit changes other classes of the body at every turn
        if (dark === document.body.classList.contains("body--dark")) return;
        dark = !dark;
        this.build();
      });
      this.light.observe(document.body, { attributes: true, attributeFilter: ["class"] });
      this.build();
      this.look("oblique");
    },
    build() {
      if (!this.own || !this.solid || !this.solid.duct) return;
      if (!this.sight) { this.owed = "build"; return; }
      this.owed = "";
      const first = !this.own.parts.duct, { three, scene } = this.own, style = getComputedStyle(document.body);
      this.none = "";
      for (const part of Object.values(this.own.parts)) {
        scene.remove(part);
        part.traverse((o) => { o.geometry?.dispose(); o.material?.dispose(); });
      }
      for (const name of ["duct", "hub", "vanes", "rotor"]) {
        const colour = new three.Color(style.getPropertyValue(COLOUR[name]).trim()), group = new three.Group();
        const outside = new three.MeshStandardMaterial({ color: colour, roughness: 0.65, metalness: 0 });
        const inside = new three.MeshBasicMaterial({ color: colour.clone().lerp(new three.Color(style.getPropertyValue("--paper").trim()), 0.45), side: three.BackSide });
        for (const geometry of this.shapes(name)) group.add(new three.Mesh(geometry, outside), new three.Mesh(geometry, inside));
        this.own.parts[name] = group;
        scene.add(group);
      }
      const s = this.solid;
      this.own.middle = (Math.min(...s.hub.x_m, ...s.duct.x_m) + Math.max(...s.hub.x_m, ...s.duct.x_m)) / 2;
      this.own.length = Math.max(...s.duct.x_m) - Math.min(...s.duct.x_m);
      this.own.size = Math.max(...s.duct.r_m, this.own.length / 2);
      this.place();
      if (first) this.look("oblique");
    },
    shapes(name) {
      const { three } = this.own, one = this.solid[name];
      if (one.r_m) {
        const lathe = new three.LatheGeometry(one.x_m.map((x, i) => new three.Vector2(Math.max(one.r_m[i], 0), x)), 96);
        lathe.rotateZ(-Math.PI / 2); // its axis is y; ours runs along x
        return [this.outwards(lathe)];
      }
      const made = [];
      for (let k = 0; k < one.count; k++) {
        const geometry = this.outwards(this.skin(one.points_m));
        geometry.rotateX((2 * Math.PI * k) / one.count);
        made.push(geometry);
      }
      return made;
    },
    skin(points) { // rings from hub to tip, closed at the trailing edge, with both ends
      const { three } = this.own, around = points.length, up = points[0].length, at = [], faces = [];
      for (const column of points) for (const p of column) at.push(...p);
      for (let i = 0; i < around; i++)
        for (let j = 0; j + 1 < up; j++) {
          const a = i * up + j, b = ((i + 1) % around) * up + j;
          faces.push(a, b, a + 1, b, b + 1, a + 1);
        }
      for (const [j, flip] of [[0, true], [up - 1, false]]) {
        const start = at.length / 3;
        for (let i = 0; i < around; i++) at.push(...points[i][j]);
        for (let i = 0; i < around / 2 - 1; i++) {
          const quad = [start + i, start + i + 1, start + around - 2 - i, start + around - 1 - i];
          const two = [quad[0], quad[1], quad[2], quad[0], quad[2], quad[3]];
          faces.push(...(flip ? two.reverse() : two));
        }
      }
      const geometry = new three.BufferGeometry();
      geometry.setAttribute("position", new three.Float32BufferAttribute(at, 3));
      geometry.setIndex(faces);
      geometry.computeVertexNormals();
      return geometry;
    },
    outwards(geometry) { // turn the triangles over where the body would be inside out
      const p = geometry.attributes.position.array, index = geometry.index.array;
      let six = 0;
      for (let i = 0; i < index.length; i += 3) {
        const [a, b, c] = [3 * index[i], 3 * index[i + 1], 3 * index[i + 2]];
        six += p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) + p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) + p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
      }
      if (six < 0) for (let i = 0; i < index.length; i += 3) [index[i], index[i + 1]] = [index[i + 1], index[i]];
      geometry.computeVertexNormals();
      return geometry;
    },
    place() {
      if (!this.own?.parts.duct) return;
      for (const [name, part] of Object.entries(this.own.parts)) {
        part.position.x = SHIFT[name] * this.apart * this.own.length - this.own.middle;
        const cut = this.cut && (name === "duct" || name === "hub") ? [this.own.plane] : [];
        part.traverse((o) => { if (o.material) o.material.clippingPlanes = cut; });
      }
      this.own.orbit.target.set(0.45 * this.apart * this.own.length, 0, 0);
      this.distance();
    },
    distance() { // all of it in sight
      const { camera, orbit, size, length } = this.own, wide = size * 1.25 + 1.55 * this.apart * length;
      const half = Math.tan((camera.fov * Math.PI) / 360), away = Math.max((size * 1.12) / half, wide / (half * camera.aspect)) + 0.7 * size;
      const from = camera.position.clone().sub(orbit.target);
      camera.position.copy(orbit.target).add(from.setLength(away * this.own.far));
      orbit.update();
      this.draw();
    },
    look(from) {
      if (!this.own?.parts.duct) return;
      const way = { oblique: [-0.62, 0.42, 1], side: [0, 0.001, 1], upstream: [-1, 0.001, 0.001] }[from];
      this.own.camera.position.copy(this.own.orbit.target).add(new this.own.three.Vector3(...way));
      this.own.far = 1;
      this.distance();
    },
    press(event) {
      const turn = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
      const near = { "+": 0.9, "-": 1.1 }[event.key];
      if ((!turn && !near) || !this.own?.parts.duct) return;
      event.preventDefault();
      const { three, camera, orbit } = this.own;
      if (near) this.own.far = Math.min(2, Math.max(0.3, this.own.far * near));
      const at = new three.Spherical().setFromVector3(camera.position.clone().sub(orbit.target));
      if (turn) { at.theta += 0.12 * turn[0]; at.phi = Math.min(3.1, Math.max(0.04, at.phi + 0.12 * turn[1])); }
      camera.position.copy(orbit.target).add(new three.Vector3().setFromSpherical(at));
      this.distance();
    },
    fit() {
      const canvas = this.$refs.canvas;
      if (!canvas || !this.own || !canvas.clientWidth) return;
      this.own.renderer.setSize(canvas.clientWidth, canvas.clientHeight, false);
      this.own.camera.aspect = canvas.clientWidth / canvas.clientHeight;
      this.own.camera.updateProjectionMatrix();
      if (this.own.parts.duct) this.distance();
    },
    draw() { // once a frame, however many things changed, and only in sight
      if (!this.own || this.waits || !this.sight) return;
      this.waits = requestAnimationFrame(() => {
        this.waits = 0;
        this.own.renderer.render(this.own.scene, this.own.camera);
      });
    },
  },
};
