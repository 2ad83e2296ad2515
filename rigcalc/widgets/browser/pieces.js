// A file that is too large for one message travels piece by piece, each when the kernel asks for it: so the kernel is never
// flooded, can say how far it is, and stops by asking for no more.

function pieces(model) {
  const picked = new Map(); // act of the input -> the file that was picked last
  return {
    pick(act, file) {
      picked.set(act, file);
      model.send({ kind: "act", name: act, value: { name: file.name, size: file.size } });
    },
    async give({ act, from, to }) {
      let bytes = null;
      try {
        bytes = await picked.get(act).slice(from, to).arrayBuffer();
      } catch { /* the file is gone, or was changed since it was picked: the kernel says so */ }
      model.send({ kind: "piece", act, from }, undefined, bytes ? [bytes] : []);
    },
  };
}
