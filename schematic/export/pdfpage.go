package export

import (
	"fmt"
	"math"

	"loomwright/schematic/draw"
)

// Sizes on a page in mm.
const (
	pageMargin  = 10.0
	footerSpace = 9.0  // under the drawing, inside the margins
	overlap     = 10.0 // of neighbouring pages
	rulerLength = 100.0
	footerText  = 2.6 // em size
)

// page is one page: where its drawing goes and what part of it shows.
type page struct {
	size       draw.Point
	window     draw.Box   // the drawing is cut to it
	at         draw.Point // top left corner of the whole drawing on the page
	scale      float64
	row, col   int // from 0
	rows, cols int
	plain      bool // no margins, no footer
	trueSize   bool
}

// layOut arranges a sheet on pages of one paper, row by row.
func layOut(sheet draw.Point, paper Paper, scale Scale) []page {
	if paper == AsDrawn {
		return []page{{
			size: sheet, window: draw.Box{Max: sheet}, scale: 1, rows: 1, cols: 1,
			plain: true,
		}}
	}
	upright := paperSize(paper)
	across := draw.Point{X: upright.Y, Y: upright.X}
	if scale == Fit {
		a, b := fit(sheet, upright), fit(sheet, across)
		if b.scale > a.scale || b.scale == a.scale && sheet.X > sheet.Y {
			a = b
		}
		return []page{a}
	}
	a, b := tile(sheet, upright), tile(sheet, across)
	if len(b) < len(a) || len(b) == len(a) && sheet.X > sheet.Y {
		a = b
	}
	return a
}

func paperSize(p Paper) draw.Point {
	switch p {
	case A3:
		return draw.Point{X: 297, Y: 420}
	case Letter:
		return draw.Point{X: 8.5 * mmPerInch, Y: 11 * mmPerInch}
	}
	return draw.Point{X: 210, Y: 297}
}

// usable is the area of a page that the drawing may take.
func usable(paper draw.Point) draw.Box {
	return draw.Box{
		Min: draw.Point{X: pageMargin, Y: pageMargin},
		Max: draw.Point{X: paper.X - pageMargin, Y: paper.Y - pageMargin - footerSpace},
	}
}

// Room is the area of an upright page that a sheet may take and keep its size;
// without margins of its own, of a page as large as the sheet, that of A4.
func (p Paper) Room() draw.Point {
	if p == AsDrawn {
		return paperSize(A4)
	}
	u := usable(paperSize(p))
	return draw.Point{X: u.Max.X - u.Min.X, Y: u.Max.Y - u.Min.Y}
}

func fit(sheet, paper draw.Point) page {
	area := usable(paper)
	w, h := area.Max.X-area.Min.X, area.Max.Y-area.Min.Y
	scale := min(w/sheet.X, h/sheet.Y, 1)
	at := draw.Point{
		X: area.Min.X + (w-sheet.X*scale)/2,
		Y: area.Min.Y + (h-sheet.Y*scale)/2,
	}
	return page{
		size: paper, at: at, scale: scale, rows: 1, cols: 1,
		window: draw.Box{Min: at, Max: draw.Point{X: at.X + sheet.X*scale, Y: at.Y + sheet.Y*scale}},
	}
}

func tile(sheet, paper draw.Point) []page {
	area := usable(paper)
	w, h := area.Max.X-area.Min.X, area.Max.Y-area.Min.Y
	cols, rows := tiles(sheet.X, w), tiles(sheet.Y, h)
	if cols*rows > maxPages { // not laid out: the caller counts and refuses
		return make([]page, maxPages+1)
	}
	var out []page
	for row := range rows {
		for col := range cols {
			// left and top of this page's part of the drawing
			left, top := float64(col)*(w-overlap), float64(row)*(h-overlap)
			out = append(out, page{
				size: paper, scale: 1, row: row, col: col, rows: rows, cols: cols, trueSize: true,
				at: draw.Point{X: area.Min.X - left, Y: area.Min.Y - top},
				window: draw.Box{Min: area.Min, Max: draw.Point{
					X: area.Min.X + min(w, sheet.X-left),
					Y: area.Min.Y + min(h, sheet.Y-top),
				}},
			})
		}
	}
	return out
}

// tiles returns how many pages a length takes when neighbours overlap.
func tiles(length, usable float64) int {
	if length <= usable {
		return 1
	}
	return int(math.Ceil((length - overlap) / (usable - overlap)))
}

// pageMarks returns what is printed beside the drawing: a ruler to check the
// scale, which page this is, and crosses where neighbouring pages meet.
func pageMarks(pg page, sheet, sheets int, title string) *draw.List {
	m := &marks{}
	if pg.plain {
		return &m.list
	}
	base := pg.size.Y - pageMargin
	right := pg.size.X - pageMargin
	label := ""
	switch {
	case sheet > sheets: // no drawing, so no scale
	case pg.trueSize:
		m.ruler(pageMargin, base)
		label = "Scale 1 : 1"
		if pg.rows*pg.cols > 1 {
			label += fmt.Sprintf(" · row %d of %d, column %d of %d", pg.row+1, pg.rows, pg.col+1, pg.cols)
		}
		m.joins(pg)
	default:
		label = fmt.Sprintf("Scale 1 : %.2f (%.0f %% of the drawn size)", 1/pg.scale, 100*pg.scale)
	}
	if sheets > 1 && sheet <= sheets {
		label += fmt.Sprintf(" · sheet %d of %d", sheet, sheets)
	}
	m.textLeftOf(right, base, label)
	if title != "" {
		m.textLeftOf(right, base-footerText*1.4, m.shorten(title, right-pageMargin-rulerLength-25))
	}
	return &m.list
}

// marks collects the marks of a footer.
type marks struct{ list draw.List }

func (m *marks) add(op draw.Op) { m.list.Marks = append(m.list.Marks, draw.Mark{Op: op}) }

func (m *marks) line(x0, y0, x1, y1 float64) {
	m.add(&draw.Stroke{Width: 0.2, Ink: draw.InkFrame, Path: []draw.Seg{
		{Verb: draw.MoveTo, P: draw.Point{X: x0, Y: y0}}, {Verb: draw.LineTo, P: draw.Point{X: x1, Y: y1}},
	}})
}

func (m *marks) text(x, y float64, s string) {
	m.add(&draw.Text{At: draw.Point{X: x, Y: y}, Size: footerText, Ink: draw.InkFaint, S: s})
}

func (m *marks) textLeftOf(x, y float64, s string) {
	m.text(x-draw.Measure(s, footerText, false), y, s)
}

// shorten cuts a text to a width in mm.
func (m *marks) shorten(s string, width float64) string {
	if draw.Measure(s, footerText, false) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && draw.Measure(string(r)+"…", footerText, false) > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// ruler draws 100 mm with a line every 10 mm, standing on y.
func (m *marks) ruler(x, y float64) {
	m.line(x, y, x+rulerLength, y)
	for mm := 0.0; mm <= rulerLength; mm += 10 {
		tall := 1.5
		if math.Mod(mm, 50) == 0 {
			tall = 3
		}
		m.line(x+mm, y-tall, x+mm, y)
	}
	m.text(x+1, y-3.6, "This line is 100 mm long. If it measures otherwise, print again at 100 %.")
}

// joins marks the edges that meet a neighbouring page: ticks in the margin
// where the neighbour's drawing ends, crosses that both pages show.
func (m *marks) joins(pg page) {
	w := pg.window
	const tick, arm = 2.5, 2.0
	cross := func(x, y float64) {
		m.line(x-arm, y, x+arm, y)
		m.line(x, y-arm, x, y+arm)
	}
	vertical := func(x float64) { // the middle of an overlap, at the side
		m.line(x, w.Min.Y-tick, x, w.Min.Y-0.5)
		m.line(x, w.Max.Y+0.5, x, w.Max.Y+tick)
		for _, share := range []float64{0.25, 0.75} {
			cross(x, w.Min.Y+share*(w.Max.Y-w.Min.Y))
		}
	}
	horizontal := func(y float64) {
		m.line(w.Min.X-tick, y, w.Min.X-0.5, y)
		m.line(w.Max.X+0.5, y, w.Max.X+tick, y)
		for _, share := range []float64{0.25, 0.75} {
			cross(w.Min.X+share*(w.Max.X-w.Min.X), y)
		}
	}
	if pg.col > 0 {
		vertical(w.Min.X + overlap/2)
	}
	if pg.col < pg.cols-1 {
		vertical(w.Max.X - overlap/2)
	}
	if pg.row > 0 {
		horizontal(w.Min.Y + overlap/2)
	}
	if pg.row < pg.rows-1 {
		horizontal(w.Max.Y - overlap/2)
	}
}
