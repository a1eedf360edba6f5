// The page's scripts as they travel: some modules become one, and names that only a script itself uses become
// short. What a person may have to read, the notices, is left as it is.
//
// A group is a module and those that go with it. All that one of the group gives is given under the name of the
// first; who else needs it asks there. Modules that are loaded late, or when something is wrong, stay by themselves.
import { createRequire } from 'node:module';

const esbuild = () => createRequire(import.meta.url)('esbuild'); // NODE_PATH says where (build_site.sh)

const GROUPS = [
  ['start.js', 'files.js'],
  ['storage.js', 'database.js', 'framing.js', 'places.js', 'check.js', 'sums.js', 'records.js'],
  ['main.js', 'access.js', 'awake.js', 'environment.js', 'frames.js', 'input.js', 'program.js', 'role.js', 'update.js'],
  ['both_stores.js', 'second_store.js'],
];
const headOf = (name) => GROUPS.find((group) => group.includes(name))?.[0] ?? name;
const NO_MODULE = ['sw.js', 'types.js'];
const SETTINGS = { minify: true, target: 'es2022', charset: 'utf8', legalComments: 'none', logLevel: 'error' };

// `files` by name; finds what modules import as './NAME'.
const among = (files, group) => ({
  name: 'among',
  setup(run) {
    run.onResolve({ filter: /.*/ }, ({ path, kind }) => {
      const name = path.replace(/^\.\//, '');
      if (!files.has(name)) throw new Error(`${path} is no script of the page`);
      const within = kind === 'entry-point' || group.includes(name);
      return within ? { path: name, namespace: 'page' } : { path: `./${headOf(name)}`, external: true };
    });
    run.onLoad({ filter: /.*/, namespace: 'page' }, ({ path }) => ({ contents: files.get(path).toString('utf8') }));
  },
});

async function module(files, name) {
  const group = GROUPS.find(([head]) => head === name) ?? [name];
  // What no other script names is not given.
  const others = [...files].filter(([one]) => one.endsWith('.js') && !group.includes(one)).join('\n');
  const given = group.flatMap((one) => [...files.get(one).toString('utf8')
    .matchAll(/^export (?:async )?(?:function\*?|class|const|let) (\w+)/gm)].map(([, what]) => [what, one]));
  const twice = given.find(([what], i) => given.findIndex(([other]) => other === what) !== i);
  if (twice) throw new Error(`${twice[0]} is given by two modules of ${group.join(', ')}`);
  const all = given.filter(([what]) => new RegExp(`\\b${what}\\b`).test(others)).map(([what, one]) => `export { ${what} } from './${one}';`);
  const { outputFiles: [out] } = await esbuild().build({ ...SETTINGS, bundle: true, format: 'esm', write: false,
    stdin: { contents: [...group.map((one) => `import './${one}';`), ...all].join('\n'), resolveDir: '/' },
    plugins: [among(files, group)] });
  return out.contents;
}

// `names`: the page's own scripts among `files`. What went into another one is gone.
export async function packScripts(files, names) {
  const packed = new Map(files);
  const minified = async (name, options) =>
    Buffer.from((await esbuild().transform(files.get(name).toString('utf8'), { ...SETTINGS, ...options })).code);
  for (const name of names) {
    if (headOf(name) !== name) packed.delete(name);
    else if (NO_MODULE.includes(name)) packed.set(name, await minified(name));
    else packed.set(name, Buffer.from(await module(files, name)));
  }
  for (const name of files.keys()) {
    if (name.endsWith('.css')) packed.set(name, await minified(name, { loader: 'css' }));
  }
  return packed;
}
