// A file sent in slices, each small enough for one message; one that is too big never travels, the kernel says so from its size.
// `at` is its place among the files picked at once.

const SLICE = 1_000_000; // bytes

async function slices(file, at, most, send) {
  const about = { name: file.name, size: file.size, at };
  const parts = file.size > most ? 0 : Math.max(Math.ceil(file.size / SLICE), 1);
  if (!parts) send({ ...about, part: 0, parts }, []);
  for (let part = 0; part < parts; part += 1) {
    const piece = await file.slice(part * SLICE, (part + 1) * SLICE).arrayBuffer(); // eslint-disable-line no-await-in-loop
    send({ ...about, part, parts }, [piece]);
  }
}
