package export

import (
	"bufio"
	"compress/zlib"
	"context"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"math"

	"loomwright/schematic/draw"
)

// PNGOptions say how a sheet becomes a picture. The zero value is usable.
type PNGOptions struct {
	DPI      float64               // pixels per inch; 0 is 200
	Palette  Palette               // zero is Print
	Dots     bool                  // the sheet's grid
	Progress func(done, total int) // in pixel rows; may be nil
}

const (
	defaultDPI = 200
	maxPixels  = 400e6 // of one picture
	mmPerInch  = 25.4

	// From here on, lines keep fractions of a pixel: they look crisp anyway,
	// and lengths measured in the picture are as drawn.
	exactDPI = 200

	stripBytes = 8 << 20 // of pixels painted at a time
)

// PixelSize returns the size in pixels that PNG gives a sheet, or an error
// that says why it cannot be painted. A dpi of 0 is the default of PNG.
func PixelSize(l *draw.List, dpi float64) (w, h int, err error) {
	if dpi == 0 {
		dpi = defaultDPI
	}
	if !(dpi >= 1 && dpi <= 10_000) {
		return 0, 0, fmt.Errorf("png: resolution of %g dpi: choose between 1 and 10000", dpi)
	}
	if err := checkSize(l); err != nil {
		return 0, 0, fmt.Errorf("png: %w", err)
	}
	fw, fh := max(1, math.Round(l.Size.X*dpi/mmPerInch)), max(1, math.Round(l.Size.Y*dpi/mmPerInch))
	if fw*fh > maxPixels {
		most := math.Floor(math.Sqrt(maxPixels/(l.Size.X*l.Size.Y)) * mmPerInch)
		return 0, 0, fmt.Errorf("png: sheet of %.0f × %.0f mm at %g dpi has %.0f × %.0f pixels, more than %d million: choose at most %.0f dpi",
			l.Size.X, l.Size.Y, dpi, fw, fh, int(maxPixels/1e6), most)
	}
	return int(fw), int(fh), nil
}

// Largest side of a sheet that can be written, in mm.
const maxSheetMM = 20_000

func checkSize(l *draw.List) error {
	if l == nil {
		return fmt.Errorf("no sheet given: choose a sheet to write")
	}
	if !(l.Size.X > 0 && l.Size.Y > 0 && l.Size.X <= maxSheetMM && l.Size.Y <= maxSheetMM) {
		return fmt.Errorf("sheet of %g × %g mm: sides must be above 0 and at most %d mm", l.Size.X, l.Size.Y, maxSheetMM)
	}
	return nil
}

// PNG writes a sheet as a picture of its exact size that carries its
// resolution. It paints and writes strip by strip, so memory stays small.
func PNG(ctx context.Context, out io.Writer, l *draw.List, o PNGOptions) error {
	w, h, err := PixelSize(l, o.DPI)
	if err != nil {
		return err
	}
	if o.DPI == 0 {
		o.DPI = defaultDPI
	}
	if o.Palette == (Palette{}) {
		o.Palette = Print()
	}
	enc := newPNGWriter(out, w, h, o.DPI)
	rows := max(minBandRows, stripBytes/(4*w))
	var p Painter
	plan := NewPlan(l)
	for y := 0; y < h; y += rows {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("png: %w", err)
		}
		n := min(rows, h-y)
		img := p.Frame(w, n)
		scale := o.DPI / mmPerInch
		p.PaintPlan(img, plan, View{
			PxPerMM: scale, OriginMM: draw.Point{Y: float64(y) / scale},
			W: w, H: n, Dots: o.Dots, Exact: o.DPI >= exactDPI,
		}, &o.Palette)
		for i := range n {
			enc.row(img.Pix[i*img.Stride : i*img.Stride+4*w])
		}
		if enc.err != nil {
			break
		}
		if o.Progress != nil {
			o.Progress(y+n, h)
		}
	}
	if err := enc.close(); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// pngWriter writes PNG (W3C Recommendation, third edition) row by row, 8 bits
// per channel without alpha. The first error stays in err.
type pngWriter struct {
	out     *bufio.Writer
	data    *bufio.Writer // collects IDAT chunks
	z       *zlib.Writer
	prev    []byte
	line    []byte
	tries   [2][]byte // filter byte and filtered row: sub, up
	err     error
	scratch [4]byte
}

func newPNGWriter(out io.Writer, w, h int, dpi float64) *pngWriter {
	e := &pngWriter{out: bufio.NewWriter(out), prev: make([]byte, 3*w), line: make([]byte, 3*w)}
	for i := range e.tries {
		e.tries[i] = make([]byte, 1+3*w)
		e.tries[i][0] = byte(1 + i)
	}
	e.write([]byte("\x89PNG\r\n\x1a\n"))
	head := binary.BigEndian.AppendUint32(nil, uint32(w))
	head = binary.BigEndian.AppendUint32(head, uint32(h))
	e.chunk("IHDR", append(head, 8, 2, 0, 0, 0)) // 8 bits, RGB, deflate, filters, no interlace
	e.chunk("sRGB", []byte{0})                   // perceptual
	perMetre := uint32(math.Round(dpi / (mmPerInch / 1000)))
	phys := binary.BigEndian.AppendUint32(nil, perMetre)
	phys = binary.BigEndian.AppendUint32(phys, perMetre)
	e.chunk("pHYs", append(phys, 1)) // the unit is the metre
	e.data = bufio.NewWriterSize(chunkWriter{e}, 1<<16)
	e.z = zlib.NewWriter(e.data)
	return e
}

// chunkWriter turns every write into an IDAT chunk.
type chunkWriter struct{ e *pngWriter }

func (c chunkWriter) Write(p []byte) (int, error) {
	c.e.chunk("IDAT", p)
	return len(p), c.e.err
}

func (e *pngWriter) write(p []byte) {
	if e.err == nil {
		_, e.err = e.out.Write(p)
	}
}

func (e *pngWriter) chunk(kind string, data []byte) {
	e.write(binary.BigEndian.AppendUint32(e.scratch[:0], uint32(len(data))))
	e.write([]byte(kind))
	e.write(data)
	sum := crc32.Update(crc32.ChecksumIEEE([]byte(kind)), crc32.IEEETable, data)
	e.write(binary.BigEndian.AppendUint32(e.scratch[:0], sum))
}

// row writes one row of RGBA pixels with the filter that leaves the smallest
// numbers.
func (e *pngWriter) row(rgba []byte) {
	if e.err != nil {
		return
	}
	cur := e.line
	for i, j := 0, 0; j < len(cur); i, j = i+4, j+3 {
		cur[j], cur[j+1], cur[j+2] = rgba[i], rgba[i+1], rgba[i+2]
	}
	sub, up := e.tries[0][1:], e.tries[1][1:]
	copy(sub, cur[:3])
	for i := 3; i < len(cur); i++ {
		sub[i] = cur[i] - cur[i-3]
	}
	for i := range cur {
		up[i] = cur[i] - e.prev[i]
	}
	best := 1
	if magnitude(sub) < magnitude(up) {
		best = 0
	}
	if _, err := e.z.Write(e.tries[best]); err != nil && e.err == nil {
		e.err = err
	}
	e.prev, e.line = cur, e.prev
}

// magnitude sums the bytes as distances from zero.
func magnitude(row []byte) int {
	sum := 0
	for _, v := range row {
		sum += int(min(v, -v))
	}
	return sum
}

func (e *pngWriter) close() error {
	for _, f := range []func() error{e.z.Close, e.data.Flush} {
		if err := f(); err != nil && e.err == nil {
			e.err = err
		}
	}
	e.chunk("IEND", nil)
	if e.err == nil {
		e.err = e.out.Flush()
	}
	return e.err
}
