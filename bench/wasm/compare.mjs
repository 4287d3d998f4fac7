// Wide rays as WebAssembly in node against the same native, in turns:
//   node compare.mjs NATIVE PROGRAM.wasm [--quick] [--json FILE]
// Ends with 1 when the two disagree on where rays leave or, without --quick, when WebAssembly is
// slower than 0.9 of SSE2 or 1/3 of AVX2.
import { spawnSync } from 'node:child_process';
import { mkdtemp, open, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WASI } from 'node:wasi';

const [native, program, ...options] = process.argv.slice(2);
const quick = options.includes('--quick');
const json = options.includes('--json') ? options[options.indexOf('--json') + 1] : null;
const rounds = quick ? 3 : 9;
const least = { sse2: 0.9, avx2: 1 / 3, avx512: 0 };

function parse(line) {
    const [, exit, look, sum] = /^exit ([\d.]+) look ([\d.]+) sum (\d+)/.exec(line) ?? [];
    return { exit: Number(exit), look: Number(look), sum };
}

const module = await WebAssembly.compile(await readFile(program));
const scratch = await mkdtemp(join(tmpdir(), 'lw_rays-'));

async function web() {
    const file = await open(join(scratch, 'out'), 'w+');
    const wasi = new WASI({ version: 'preview1', args: ['lw_rays', 'simd128'], env: {},
        stdout: file.fd, returnOnExit: true });
    const imports = { wasi_snapshot_preview1: wasi.wasiImport };
    wasi.start(await WebAssembly.instantiate(module, imports));
    await file.close();
    return parse(await readFile(join(scratch, 'out'), 'utf8'));
}

const own = (lanes) => parse(spawnSync(native, [lanes], { encoding: 'utf8' }).stdout);
const sorted = (list) => [...list].sort((a, b) => a - b);
const at = (list, share) => sorted(list)[Math.round(share * (list.length - 1))];

const kinds = Object.keys(least).filter((lanes) => own(lanes).sum !== undefined);
const figures = [];
let held = true;
let agrees = true;
for (const lanes of kinds) {
    const turns = [];
    for (let i = 0; i < rounds; i++) {
        turns.push({ here: own(lanes), there: await web() });
    }
    for (const what of ['exit', 'look']) {
        const speeds = turns.map(({ here, there }) => here[what] / there[what]);
        const row = { what, against: lanes, wasm_ns: at(turns.map((t) => t.there[what]), 0.5),
            native_ns: at(turns.map((t) => t.here[what]), 0.5), speed: at(speeds, 0.5),
            quartiles: [at(speeds, 0.25), at(speeds, 0.75)],
            extremes: [at(speeds, 0), at(speeds, 1)], rounds };
        figures.push(row);
        held &&= row.speed >= least[lanes];
        console.log(`${what} wasm ${row.wasm_ns.toFixed(2)} ns a ray, ${lanes} ${row.native_ns.toFixed(2)}, ` +
            `speed ${row.speed.toFixed(2)} of native (quartiles ${row.quartiles.map((q) => q.toFixed(2)).join(' .. ')}, ` +
            `extremes ${row.extremes.map((q) => q.toFixed(2)).join(' .. ')})`);
    }
    // Four lanes without fused multiply-add are the same to the bit.
    agrees &&= lanes !== 'sse2' || turns.every(({ here, there }) => here.sum === there.sum);
}
await rm(scratch, { recursive: true });
if (json) {
    await writeFile(json, JSON.stringify({ node: process.version, figures }, null, 2) + '\n');
}
console.log(!agrees ? 'exits DIFFER' : held ? 'holds' : 'MISSES what it is held to');
process.exitCode = agrees && (held || quick) ? 0 : 1;
