/** A picture as PNG. */

/** Pixels of a PNG for each pixel of the page, so that it prints sharp. */
const DENSITY = 2

export async function pngOf(svg: string): Promise<Blob> {
  const image = new Image()
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }))
  try {
    image.src = address
    await image.decode()
    const canvas = document.createElement('canvas')
    canvas.width = image.naturalWidth * DENSITY
    canvas.height = image.naturalHeight * DENSITY
    canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height)
    return await new Promise((settle, reject) =>
      canvas.toBlob(
        (blob) => (blob ? settle(blob) : reject(new Error('The picture could not be drawn.'))),
        'image/png',
      ),
    )
  } finally {
    URL.revokeObjectURL(address)
  }
}
