// Makes volumes.json: volumes below planes, and areas of level sections, by an
// independent mesh library. To run it again:
//
//   npm install manifold-3d@3.5.4 && node volumes.mjs
//
// It reads the moulded tank of the built-in library, makes a second mesh, a hub
// of a cylinder, a ball and a bored block, and writes that as hub.stl. Meshes go
// through single precision on their way, so that both programs see the same.
import fs from 'node:fs';
import Module from 'manifold-3d';

const wasm = await Module();
wasm.setup();
const { Manifold, Mesh } = wasm;

function readText(file) {
  const numbers = [...fs.readFileSync(file, 'utf8').matchAll(/vertex\s+(\S+)\s+(\S+)\s+(\S+)/g)];
  return numbers.map((m) => [Math.fround(m[1]), Math.fround(m[2]), Math.fround(m[3])]);
}

function weld(corners) {
  const known = new Map(), vertices = [], triangles = [];
  for (const c of corners) {
    const key = c.join(' ');
    if (!known.has(key)) {
      known.set(key, known.size);
      vertices.push(...c);
    }
    triangles.push(known.get(key));
  }
  return new Manifold(new Mesh({ numProp: 3, vertProperties: Float32Array.from(vertices), triVerts: Uint32Array.from(triangles) }));
}

function writeBinary(file, mesh) {
  const n = mesh.triVerts.length / 3, out = Buffer.alloc(84 + 50 * n);
  out.write('hub');
  out.writeUInt32LE(n, 80);
  for (let t = 0; t < n; t++)
    for (let k = 0; k < 3; k++)
      for (let c = 0; c < 3; c++)
        out.writeFloatLE(mesh.vertProperties[3 * mesh.triVerts[3 * t + k] + c], 84 + 50 * t + 12 + 12 * k + 4 * c);
  fs.writeFileSync(file, out);
}

const hub = Manifold.cylinder(180, 90, 60, 64)
  .add(Manifold.sphere(80, 48).translate([30, 10, 150]))
  .add(Manifold.cube([220, 120, 70], true).rotate([10, 20, 30]).translate([0, 0, 60]))
  .subtract(Manifold.cylinder(400, 22, 22, 40, true).rotate([70, 0, 25]).translate([10, 0, 70]));
writeBinary('hub.stl', hub.getMesh());
const again = hub.getMesh();

const meshes = [
  { file: 'moulded.stl', solid: weld(readText('../../../library/moulded.stl')) },
  { file: 'hub.stl', solid: new Manifold(again) },
];

const unit = (v) => v.map((x) => x / Math.hypot(...v));
const normals = [[0, 0, 1], [1, 0, 0], [0.12, -0.07, 0.99], [-0.3, 0.2, 0.9], [0.6, 0.64, 0.48]].map(unit);
const out = { library: 'manifold-3d 3.5.4 (npm)', meshes: [] };
for (const { file, solid } of meshes) {
  const cuts = [];
  for (const n of normals) {
    const mesh = solid.getMesh();
    let lo = Infinity, hi = -Infinity;
    for (let i = 0; i < mesh.vertProperties.length; i += 3) {
      const h = n[0] * mesh.vertProperties[i] + n[1] * mesh.vertProperties[i + 1] + n[2] * mesh.vertProperties[i + 2];
      lo = Math.min(lo, h);
      hi = Math.max(hi, h);
    }
    for (const share of [0.03, 0.21, 0.47, 0.71, 0.94]) {
      const level = lo + (hi - lo) * share;
      const cut = { normal: n, level, below: solid.volume() - solid.trimByPlane(n, level).volume() };
      if (n[2] === 1) cut.area = solid.slice(level).area();
      cuts.push(cut);
    }
  }
  out.meshes.push({ file, triangles: solid.numTri(), volume: solid.volume(), cuts });
}
fs.writeFileSync('volumes.json', JSON.stringify(out, null, 1) + '\n');
