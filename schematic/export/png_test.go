package export

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"image"
	"image/png"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

func TestPNGIsTheExactPage(t *testing.T) {
	l := sample()
	for _, dpi := range []float64{72, 150, 300} {
		var out bytes.Buffer
		require.NoError(t, PNG(t.Context(), &out, l, PNGOptions{DPI: dpi, Palette: Light(), Dots: true}))
		img, err := png.Decode(bytes.NewReader(out.Bytes()))
		require.NoError(t, err, "the standard library reads it")
		w, h := int(math.Round(210*dpi/25.4)), int(math.Round(148*dpi/25.4))
		require.Equal(t, image.Rect(0, 0, w, h), img.Bounds(), "%g dpi", dpi)

		want := paint(l, View{PxPerMM: dpi / 25.4, W: w, H: h, Dots: true, Exact: dpi >= exactDPI}, Light())
		worst := 0
		for y := range h {
			for x := range w {
				r, g, b, a := img.At(x, y).RGBA()
				c := want.RGBAAt(x, y)
				worst = max(worst, int(r>>8)-int(c.R), int(c.R)-int(r>>8), int(g>>8)-int(c.G), int(c.G)-int(g>>8), int(b>>8)-int(c.B), int(c.B)-int(b>>8), int(0xff-a>>8))
			}
		}
		assert.LessOrEqual(t, worst, 6, "%g dpi: the picture is what the painter paints", dpi)
	}
}

// W3C PNG, third edition, 11.3.4.3: pHYs holds pixels per unit in x and y and
// the unit, 1 for the metre. 300 dpi is 11811 pixels per metre.
func TestPNGCarriesItsResolution(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, PNG(t.Context(), &out, &newSheet(20, 10).list, PNGOptions{DPI: 300}))
	raw := out.Bytes()
	i := bytes.Index(raw, []byte("pHYs"))
	require.Positive(t, i)
	assert.EqualValues(t, 9, binary.BigEndian.Uint32(raw[i-4:]), "length of the chunk")
	assert.EqualValues(t, 11811, binary.BigEndian.Uint32(raw[i+4:]))
	assert.EqualValues(t, 11811, binary.BigEndian.Uint32(raw[i+8:]))
	assert.EqualValues(t, 1, raw[i+12])
	assert.Less(t, i, bytes.Index(raw, []byte("IDAT")), "before the pixels, as the standard asks")
}

func TestPNGRefuses(t *testing.T) {
	big := &newSheet(1189, 841).list
	for _, c := range []struct {
		why  string
		l    *draw.List
		dpi  float64
		want string
	}{
		{"too many pixels", big, 1200, "choose at most 508 dpi"},
		{"negative", big, -5, "choose between 1 and 10000"},
		{"not a number", big, math.NaN(), "choose between 1 and 10000"},
		{"no sheet", nil, 100, "no sheet given"},
		{"no size", &draw.List{}, 100, "sides must be above 0"},
		{"endless", &newSheet(math.Inf(1), 10).list, 100, "sides must be above 0"},
	} {
		err := PNG(t.Context(), io.Discard, c.l, PNGOptions{DPI: c.dpi})
		assert.ErrorContains(t, err, c.want, c.why)
	}
	_, _, err := PixelSize(big, 508)
	assert.NoError(t, err, "what the message offers is taken")
}

func TestPNGStopsAndReports(t *testing.T) {
	l := &newSheet(400, 1000).list // several strips
	ctx, cancel := context.WithCancel(t.Context())
	calls, last := 0, 0
	err := PNG(ctx, io.Discard, l, PNGOptions{DPI: 100, Progress: func(done, total int) {
		calls++
		last = done
		assert.Equal(t, 3937, total)
		cancel()
	}})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, 1, calls)
	assert.Less(t, last, 3937)
	require.NoError(t, PNG(t.Context(), io.Discard, l, PNGOptions{DPI: 100, Progress: func(done, total int) { last = done }}))
	assert.Equal(t, 3937, last)
}

var errFull = errors.New("disk full")

// fullDisk takes a number of bytes and then fails.
type fullDisk struct{ left int }

func (d *fullDisk) Write(p []byte) (int, error) {
	if len(p) > d.left {
		return 0, errFull
	}
	d.left -= len(p)
	return len(p), nil
}

func TestWriteErrorsReachTheCaller(t *testing.T) {
	l := sample()
	for _, room := range []int{0, 100, 5000} {
		assert.ErrorIs(t, PNG(t.Context(), &fullDisk{room}, l, PNGOptions{}), errFull, "png, room for %d", room)
		assert.ErrorIs(t, SVG(t.Context(), &fullDisk{room}, l, SVGOptions{}), errFull, "svg, room for %d", room)
		assert.ErrorIs(t, PDF(t.Context(), &fullDisk{room}, []*draw.List{l}, PDFOptions{}), errFull, "pdf, room for %d", room)
	}
}

func TestOutputsRepeat(t *testing.T) {
	l := sample()
	for name, write := range map[string]func(io.Writer) error{
		"png":   func(w io.Writer) error { return PNG(t.Context(), w, l, PNGOptions{DPI: 90}) },
		"svg":   func(w io.Writer) error { return SVG(t.Context(), w, l, SVGOptions{}) },
		"fit":   func(w io.Writer) error { return PDF(t.Context(), w, []*draw.List{l, l}, PDFOptions{Title: "a"}) },
		"tiles": func(w io.Writer) error { return PDF(t.Context(), w, []*draw.List{l}, PDFOptions{Scale: OneToOne}) },
	} {
		var first bytes.Buffer
		require.NoError(t, write(&first), name)
		for range 5 {
			var again bytes.Buffer
			require.NoError(t, write(&again), name)
			require.True(t, bytes.Equal(first.Bytes(), again.Bytes()), "%s: bytes differ between runs", name)
		}
	}
}

// Pixels of an A0 sheet at 100 dpi; there is no budget, but it must stay far
// below a second.
func BenchmarkPNG(b *testing.B) {
	l := harness(10_000, 3_000)
	for b.Loop() {
		if err := PNG(b.Context(), io.Discard, l, PNGOptions{DPI: 100}); err != nil {
			b.Fatal(err)
		}
	}
}
