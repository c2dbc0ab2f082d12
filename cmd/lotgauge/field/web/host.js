// The host runs the engine, on the page itself and in a worker.

// hosted starts an engine with its data and returns the function to call it by.
// A Go program ends only when it fails, and says nothing then: whoever waits for
// it must hear of that.
function hosted(program, data) {
  return new Promise((resolve, reject) => {
    const go = new Go();
    let ended = null;
    globalThis.lotgaugeReady = () => {
      const engine = globalThis.lotgaugeEngine;
      const call = (operation, argument) => {
        if (ended) throw ended;
        const text = typeof argument === "string" ? argument : JSON.stringify(argument);
        const reply = JSON.parse(engine(operation, text));
        if (reply.error) throw Object.assign(new Error(reply.error.message), reply.error);
        return reply.ok;
      };
      try {
        call("open", data);
        resolve(call);
      } catch (e) {
        reject(e);
      }
    };
    const failed = (e) => {
      ended = new Error("the engine stopped" + (e ? ": " + e.message : ""));
      reject(ended);
    };
    WebAssembly.instantiate(program, go.importObject)
      .then((instance) => go.run(instance))
      .then(() => failed(), failed);
  });
}

// work answers the page's calls inside a worker: first comes the engine with its
// data, then calls {id, operation, argument}.
function work() {
  let call = null;
  onmessage = async (event) => {
    const m = event.data;
    try {
      if (m.program) {
        call = await hosted(m.program, m.data);
        postMessage({ ready: true });
      } else {
        postMessage({ id: m.id, ok: call(m.operation, m.argument) });
      }
    } catch (e) {
      postMessage({ id: m.id, error: e.message, lines: e.lines || [] });
    }
  };
}
