package export

import (
	"bytes"
	"context"
	"image/color"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

// block is a sheet with one filled square.
func block(w, h float64, at draw.Box) *draw.List {
	return &draw.List{Size: draw.Point{X: w, Y: h}, Marks: []draw.Mark{{Bound: at, Op: &draw.Fill{Ink: draw.InkSymbol, Path: []draw.Seg{
		{Verb: draw.MoveTo, P: at.Min}, {Verb: draw.LineTo, P: draw.Point{X: at.Max.X, Y: at.Min.Y}},
		{Verb: draw.LineTo, P: at.Max}, {Verb: draw.LineTo, P: draw.Point{X: at.Min.X, Y: at.Max.Y}}, {Verb: draw.Close},
	}}}}}
}

func TestPagesAreThoseOfThePDF(t *testing.T) {
	lists := []*draw.List{block(420, 297, draw.Box{Max: draw.Point{X: 50, Y: 50}}), block(100, 100, draw.Box{Max: draw.Point{X: 50, Y: 50}})}
	for _, o := range []PDFOptions{{}, {Scale: OneToOne}, {Paper: A3}, {Paper: Letter, Scale: OneToOne}, {Paper: AsDrawn}} {
		pages, err := Pages(lists, o)
		require.NoError(t, err)
		var out bytes.Buffer
		require.NoError(t, PDF(context.Background(), &out, lists, o))
		// ISO 32000-1, 7.7.3.3: every page is an object of type Page.
		assert.Len(t, regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(out.Bytes(), -1), len(pages))
	}
	_, err := Pages(nil, PDFOptions{})
	assert.Error(t, err)
}

func TestPagePreviewShowsThePage(t *testing.T) {
	// 420 × 297 mm at true size on A4 takes several pages; the square of the
	// first is on no other.
	lists := []*draw.List{block(420, 297, draw.Box{Min: draw.Point{X: 20, Y: 20}, Max: draw.Point{X: 60, Y: 60}})}
	pages, err := Pages(lists, PDFOptions{Scale: OneToOne})
	require.NoError(t, err)
	require.Greater(t, len(pages), 2)
	assert.Contains(t, pages[1].Caption(), "scale 1 : 1, row 1 of ")
	dark := func(p PagePreview) int {
		m, n := p.Paint(400, 400), 0
		for y := range 400 {
			for x := range 400 {
				if c := m.RGBAAt(x, y); c.A == 255 && int(c.R)+int(c.G)+int(c.B) < 150 {
					n++
				}
			}
		}
		return n
	}
	side := 400 / max(pages[0].SizeMM.X, pages[0].SizeMM.Y) * 40 // of the square, in pixels
	assert.InEpsilon(t, side*side, dark(pages[0]), 0.2)
	assert.Less(t, dark(pages[len(pages)-1]), int(side*side/10))
	m := pages[0].Paint(400, 400)
	assert.Equal(t, color.RGBA{}, m.RGBAAt(0, 399), "beside the page nothing is painted")
	assert.NotPanics(t, func() { pages[0].Paint(0, 0); pages[0].Paint(3, 1) })

	fitted, err := Pages(lists, PDFOptions{})
	require.NoError(t, err)
	require.Len(t, fitted, 1)
	assert.Contains(t, fitted[0].Caption(), "297 × 210 mm, lying, scale 1 : 1.64")
}
