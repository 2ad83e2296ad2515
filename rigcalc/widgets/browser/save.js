// A file from the kernel, saved by the browser as if its link had been followed.

function save(message, buffers) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob(buffers, { type: message.type }));
  link.download = message.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
