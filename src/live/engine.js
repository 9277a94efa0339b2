// In the worker: one engine, one question after the other. The first message brings its program.
let begin;
const engine = new Promise((resolve) => (begin = resolve)).then((module) =>
  caseload_engine({
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(module, imports).then((instance) => done(instance, module));
      return {};
    },
  }),
);
onmessage = async ({ data: { module, id, question, first = "", second = "" } }) => {
  if (module) return begin(module);
  const words = ["string", "string", "string"];
  try {
    const said = (await engine).ccall("caseload_ask", "string", words, [question, first, second]);
    postMessage({ id, said: JSON.parse(said) });
  } catch (error) {
    postMessage({ id, said: { ok: false, problems: [], report: `our bug: ${error}` } });
  }
};
