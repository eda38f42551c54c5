// A photo is made smaller before it is sent: a phone's is larger than any page needs.
const MOST = 1800;

document.addEventListener("change", (event) => {
  if (event.target.id !== "photo") return;
  smaller(event.target).catch(() => { /* sent as it is */ });
});

async function smaller(input) {
  const file = input.files?.[0];
  if (!file) return;
  const form = input.form;
  form.dataset.editing = "";
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const share = Math.min(1, MOST / Math.max(picture.width, picture.height));
    const canvas = Object.assign(document.createElement("canvas"), { width: Math.round(picture.width * share), height: Math.round(picture.height * share) });
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.86));
    if (!blob || input.files?.[0] !== file) return;
    const fresh = new File([blob], "photo.jpg", { type: "image/jpeg" });
    if (share < 1 || fresh.size < file.size || file.type !== "image/jpeg") {
      const given = new DataTransfer();
      given.items.add(fresh);
      input.files = given.files;
    }
    const preview = document.getElementById("preview");
    if (!preview) return;
    preview.src = URL.createObjectURL(blob);
    preview.alt = "The photo as it will be kept";
    preview.hidden = false;
  } finally {
    delete form.dataset.editing;
  }
}
