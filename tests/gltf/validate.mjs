// Every .gltf file of a folder against Khronos' glTF validator: no error, no warning. And a file with one thing wrong,
// which must be found.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { validateBytes } from 'gltf-validator';

const folder = process.argv[2];
const names = readdirSync(folder).filter((name) => name.endsWith('.gltf')).sort();
if (names.length === 0) throw new Error(`no .gltf file in ${folder}`);

const judge = async (bytes) => (await validateBytes(new Uint8Array(bytes))).issues;
let faults = 0;
for (const name of names) {
  const issues = await judge(readFileSync(join(folder, name)));
  for (const m of issues.messages) {
    if (m.severity > 1) continue;
    console.log(`${name}: ${m.code} at ${m.pointer}: ${m.message}`);
    faults += 1;
  }
}

const broken = JSON.parse(readFileSync(join(folder, names[0]), 'utf8'));
broken.materials[0].extensions.KHR_materials_clearcoat = { clearcoatFactor: 1.5 };
if ((await judge(Buffer.from(JSON.stringify(broken)))).numErrors === 0) {
  console.log('a clearcoatFactor of 1.5 was not found out');
  faults += 1;
}
console.log(`gltf: ${names.length} files, ${faults} faults`);
process.exit(faults === 0 ? 0 : 1);
