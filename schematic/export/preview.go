package export

import (
	"fmt"
	"image"
	"math"
	"slices"

	"loomwright/schematic/draw"
)

// PagePreview is one page of the document that [PDF] would write: the same
// lay-out, painted for a screen.
type PagePreview struct {
	SizeMM draw.Point
	Sheet  int     // index of the sheet it shows; what follows the sheets counts on
	Scale  float64 // of the drawing: 1 is true size
	// Row and Col count from 0 where a sheet takes several pages.
	Row, Col, Rows, Cols int

	list  *draw.List
	page  page
	marks *draw.List
	pal   Palette
}

// Pages lays the sheets out as [PDF] does with the same options.
func Pages(lists []*draw.List, o PDFOptions) ([]PagePreview, error) {
	if o.Palette == (Palette{}) {
		o.Palette = Print()
	}
	sheets := len(lists)
	lists = slices.Concat(lists, o.After)
	laid, err := layOutAll(lists, o)
	if err != nil {
		return nil, err
	}
	var out []PagePreview
	for i, pages := range laid {
		for _, pg := range pages {
			out = append(out, PagePreview{
				SizeMM: pg.size, Sheet: i, Scale: pg.scale, Row: pg.row, Col: pg.col, Rows: pg.rows, Cols: pg.cols,
				list: lists[i], page: pg, marks: pageMarks(pg, i+1, sheets, o.Title), pal: o.Palette,
			})
		}
	}
	return out, nil
}

// Caption says in words what the page is.
func (p *PagePreview) Caption() string {
	lies := "standing"
	if p.SizeMM.X > p.SizeMM.Y {
		lies = "lying"
	}
	s := fmt.Sprintf("%.0f × %.0f mm, %s, ", p.SizeMM.X, p.SizeMM.Y, lies)
	switch {
	case p.page.plain || p.page.trueSize:
		s += "scale 1 : 1"
	default:
		s += fmt.Sprintf("scale 1 : %.2f", 1/p.Scale)
	}
	if p.Rows*p.Cols > 1 {
		s += fmt.Sprintf(", row %d of %d, column %d of %d", p.Row+1, p.Rows, p.Col+1, p.Cols)
	}
	return s
}

// Paint paints the page into a picture of w × h pixels, as large as it fits;
// the rest is transparent. It paints with twice the pixels first: a page is
// small on a screen, and letters too small to read still make it look as it is.
func (p *PagePreview) Paint(w, h int) *image.RGBA {
	w, h = max(w, 1), max(h, 1)
	return halved(p.paint(2*w, 2*h))
}

// halved makes one pixel of four.
func halved(m *image.RGBA) *image.RGBA {
	w, h := m.Rect.Dx()/2, m.Rect.Dy()/2
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		a, b := m.Pix[2*y*m.Stride:], m.Pix[(2*y+1)*m.Stride:]
		for x := range w {
			for c := range 4 {
				i := 8*x + c
				out.Pix[y*out.Stride+4*x+c] = uint8((int(a[i]) + int(a[i+4]) + int(b[i]) + int(b[i+4]) + 2) / 4)
			}
		}
	}
	return out
}

func (p *PagePreview) paint(w, h int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	perMM := min(float64(w)/p.SizeMM.X, float64(h)/p.SizeMM.Y)
	pw, ph := int(p.SizeMM.X*perMM), int(p.SizeMM.Y*perMM)
	if pw < 1 || ph < 1 {
		return out
	}
	var drawing, marks Painter
	// The page as a sheet of its own, with its marks but without the drawing.
	blank := &draw.List{Size: p.SizeMM, Marks: p.marks.Marks}
	paper := marks.Frame(pw, ph)
	marks.Paint(paper, blank, View{PxPerMM: perMM, W: pw, H: ph}, &p.pal)
	// The drawing, cut to its window.
	win := p.page.window
	x0, y0 := int(math.Round(win.Min.X*perMM)), int(math.Round(win.Min.Y*perMM))
	x1, y1 := min(pw, int(math.Round(win.Max.X*perMM))), min(ph, int(math.Round(win.Max.Y*perMM)))
	if x1 > x0 && y1 > y0 {
		part := drawing.Frame(x1-x0, y1-y0)
		drawing.Paint(part, p.list, View{PxPerMM: perMM * p.page.scale, W: x1 - x0, H: y1 - y0,
			OriginMM: draw.Point{X: (win.Min.X - p.page.at.X) / p.page.scale, Y: (win.Min.Y - p.page.at.Y) / p.page.scale}}, &p.pal)
		bare := p.pal.Paper()
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				if paper.RGBAAt(x, y) == bare { // marks lie over the drawing
					paper.SetRGBA(x, y, part.RGBAAt(x-x0, y-y0))
				}
			}
		}
	}
	left, top := (w-pw)/2, (h-ph)/2
	for y := range ph {
		copy(out.Pix[out.PixOffset(left, top+y):], paper.Pix[paper.PixOffset(0, y):paper.PixOffset(0, y)+4*pw])
	}
	return out
}
