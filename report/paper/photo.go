package paper

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // photos of cameras and phones
	"image/png"

	"github.com/jung-kurt/gofpdf"
	"golang.org/x/image/draw"
)

// PhotoError says that a picture cannot be printed.
type PhotoError struct{ Why string }

func (e *PhotoError) Error() string { return e.Why }

// photoPixels is the side of a photo as it is printed: 300 dots an inch on 28 mm.
const photoPixels = 330

// Photo reads a picture (JPEG or PNG) and returns the middle of it as a square for a card.
// It fails with a *PhotoError.
func Photo(data []byte) ([]byte, error) {
	config, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, &PhotoError{"it is no JPEG or PNG picture"}
	}
	const most = 100e6
	if config.Width < 1 || config.Height < 1 || float64(config.Width)*float64(config.Height) > most {
		return nil, &PhotoError{fmt.Sprintf("a picture of %d x %d points is too large", config.Width, config.Height)}
	}
	picture, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, &PhotoError{"the picture is damaged"}
	}
	b := picture.Bounds()
	side := min(b.Dx(), b.Dy())
	x, y := b.Min.X+(b.Dx()-side)/2, b.Min.Y+(b.Dy()-side)/2
	square := image.NewRGBA(image.Rect(0, 0, photoPixels, photoPixels))
	draw.Draw(square, square.Bounds(), image.White, image.Point{}, draw.Src)
	draw.CatmullRom.Scale(square, square.Bounds(), picture, image.Rect(x, y, x+side, y+side), draw.Over, nil)
	var out bytes.Buffer
	if err := png.Encode(&out, square); err != nil {
		return nil, fmt.Errorf("the photo: %w", err)
	}
	return out.Bytes(), nil
}

// photo draws a pet's photo, made by Photo, in a square.
func (p *page) photo(pet string, data []byte, x, y, side float64) {
	if p.rehearsing {
		return
	}
	options := gofpdf.ImageOptions{ImageType: "png"}
	name := "photo of " + pet
	p.pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(data))
	p.pdf.ImageOptions(name, x, y, side, side, false, options, 0, "")
	p.frame(x, y, side, side, 0.3)
	p.drew(x, y, side, side)
}
