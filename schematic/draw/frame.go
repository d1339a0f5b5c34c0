package draw

import "fmt"

// Caution stands on every sheet, on the screen and in every export.
const Caution = "Calculation aid only. Follow the vehicle maker's data and local codes; have a qualified person check. Disconnect the battery before work."

const (
	frameMargin = 5.0   // mm from the sheet's edge to its frame
	blockWidth  = 180.0 // mm, the widest title block (ISO 7200)
	cautionSize = 2.0
	cellPad     = 1.5
	captionSize = 1.5
)

// frame draws the sheet, its border and the title block. There is no date in
// it, so that the same document gives the same drawing on any day.
func (b *build) frame() []Mark {
	var p pen
	size := mm(b.sheet.Area().Max)
	sheet := Box{Max: size}
	p.fill(rectPath(sheet), InkPaper)
	inner := sheet.Grow(-frameMargin)
	if inner.Empty() || inner.Max.X-inner.Min.X < 20 || inner.Max.Y-inner.Min.Y < 20 {
		return p.marks // a label, not a sheet
	}
	p.stroke(rectPath(inner), frameLine, InkFrame)
	b.titleBlock(&p, inner)
	return p.marks
}

// titleBlock draws the block in the frame's lower right corner and enters it
// as taken.
func (b *build) titleBlock(p *pen, inner Box) {
	w := min(blockWidth, inner.Max.X-inner.Min.X)
	caution := wrap(Caution, w-2*cellPad, cautionSize, false, 0)
	const titleRow, row, lead = 10.5, 8.0, cautionSize * lineSpace
	foot := lead*float64(len(caution)) + 1.6
	block := Box{Point{inner.Max.X - w, inner.Max.Y - titleRow - row - foot}, inner.Max}
	b.room.block(block)
	p.fill(rectPath(block), InkPaper)
	p.stroke(rectPath(block), frameLine, InkFrame)
	y1, y2 := block.Min.Y+titleRow, block.Min.Y+titleRow+row
	for _, y := range [2]float64{y1, y2} {
		p.stroke(polyline(Point{block.Min.X, y}, Point{block.Max.X, y}), plainLine, InkFrame)
	}

	info, sheets := b.doc.Info(), b.doc.Sheets()
	n := 0
	for i, s := range sheets {
		if s.ID == b.sheet.ID {
			n = i + 1
		}
	}
	page := fmt.Sprintf("%d of %d", n, len(sheets))
	side := min(62, w*0.36) // the right column: number and issue
	x := block.Max.X - side
	p.stroke(polyline(Point{x, block.Min.Y}, Point{x, y1}), plainLine, InkFrame)
	p.cell(Box{block.Min, Point{x, y1}}, "Title", orNone(info.Title), 4, true)
	mid := block.Max.X - side*0.32
	p.stroke(polyline(Point{mid, block.Min.Y}, Point{mid, y1}), plainLine, InkFrame)
	p.cell(Box{Point{x, block.Min.Y}, Point{mid, y1}}, "Number", orNone(info.Number), 3, false)
	p.cell(Box{Point{mid, block.Min.Y}, Point{block.Max.X, y1}}, "Issue", orNone(info.Issue), 3, false)

	half := block.Min.X + (x-block.Min.X)/2
	p.stroke(polyline(Point{half, y1}, Point{half, y2}), plainLine, InkFrame)
	p.stroke(polyline(Point{mid, y1}, Point{mid, y2}), plainLine, InkFrame)
	p.cell(Box{Point{block.Min.X, y1}, Point{half, y2}}, "Vehicle", orNone(info.Vehicle), 2.5, false)
	p.cell(Box{Point{half, y1}, Point{mid, y2}}, "Sheet name", orNone(b.sheet.Name), 2.5, false)
	p.cell(Box{Point{mid, y1}, Point{block.Max.X, y2}}, "Sheet", page, 2.5, false)

	y := y2 + 0.9 + CapHeight(cautionSize)
	for _, l := range caution {
		p.text(textAt(l, Point{block.Min.X + cellPad, y}, atStart, 0, cautionSize, false, InkText))
		y += lead
	}
}

// cell writes one field of the title block: a small caption above its text.
func (p *pen) cell(b Box, caption, s string, size float64, bold bool) {
	w := b.Max.X - b.Min.X - 2*cellPad
	x := b.Min.X + cellPad
	p.text(textAt(trim(caption, w, captionSize, false), Point{x, b.Min.Y + 0.8 + CapHeight(captionSize)}, atStart, 0, captionSize, false, InkFaint))
	for size > sizeValue && Measure(s, size, bold) > w {
		size -= 0.5
	}
	p.text(textAt(trim(s, w, size, bold), Point{x, b.Max.Y - 1.5}, atStart, 0, size, bold, InkText))
}

func orNone(s string) string {
	if s == "" {
		return "–"
	}
	return s
}
