const SCALE = 2;

/** An SVG text as a PNG image on white, at twice its size. */
export async function pictureOf(svg: string): Promise<Uint8Array> {
  const image = new Image();
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = image.width * SCALE;
    canvas.height = image.height * SCALE;
    const pen = canvas.getContext("2d");
    if (pen === null) throw new Error("this browser draws no pictures");
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/png"));
    if (blob === null) throw new Error("this browser makes no PNG");
    return new Uint8Array(await blob.arrayBuffer());
  } finally {
    URL.revokeObjectURL(address);
  }
}
