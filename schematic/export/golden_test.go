package export

import (
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	sheet "loomwright/schematic/draw"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// Processors round differently in the last bit, which may move the colour of a
// pixel a little.
const goldenTolerance = 8 // of 255, in any channel

func TestGoldenPictures(t *testing.T) {
	wires := sheet.Point{X: 45, Y: 15}
	symbols := sheet.Point{X: 125, Y: 35}
	texts := sheet.Point{X: 10, Y: 108}
	for _, c := range []struct {
		name string
		v    View
		pal  Palette
	}{
		{"wires-light", View{PxPerMM: 6, OriginMM: wires, Dots: true}, Light()},
		{"wires-far-dark", View{PxPerMM: 2, OriginMM: wires, Dots: true}, Dark()},
		{"symbols-dark", View{PxPerMM: 4, OriginMM: symbols, Dots: true}, Dark()},
		{"symbols-print-exact", View{PxPerMM: 3.7, OriginMM: symbols, Exact: true}, Print()},
		{"texts-light", View{PxPerMM: 3.5, OriginMM: texts}, Light()},
		{"sheet-corner", View{PxPerMM: 3, OriginMM: sheet.Point{X: 150, Y: 100}, Dots: true}, Light()},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.v.W, c.v.H = 320, 200
			sameAsGolden(t, c.name, paint(sample(), c.v, c.pal))
		})
	}
}

// sameAsGolden compares a picture with testdata/golden. A picture that differs
// is written to testdata/failed, its differing pixels beside it.
func sameAsGolden(t *testing.T, name string, got *image.RGBA) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name+".png")
	if *update {
		writePicture(t, path, got)
		return
	}
	f, err := os.Open(path)
	require.NoError(t, err, "run the test with -update once and look at the picture")
	defer f.Close()
	decoded, err := png.Decode(f)
	require.NoError(t, err)
	require.Equal(t, got.Rect, decoded.Bounds())
	want := image.NewRGBA(decoded.Bounds())
	draw.Draw(want, want.Rect, decoded, image.Point{}, draw.Src)

	marked, differing := image.NewRGBA(got.Rect), 0
	for y := range got.Rect.Dy() {
		for x := range got.Rect.Dx() {
			if apart(got.RGBAAt(x, y), want.RGBAAt(x, y)) > goldenTolerance {
				marked.SetRGBA(x, y, color.RGBA{255, 0, 0, 255})
				differing++
			}
		}
	}
	if differing > 0 {
		failed := filepath.Join("testdata", "failed", name)
		writePicture(t, failed+".png", got)
		writePicture(t, failed+"-difference.png", marked)
		t.Errorf("%d pixels differ from %s: see %s.png", differing, path, failed)
	}
}

func writePicture(t *testing.T, path string, img image.Image) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, img))
	require.NoError(t, f.Close())
}
