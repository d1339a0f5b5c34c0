package draw

import "fmt"

// Listing is a table of marked texts over as many pages as it takes: what was
// found in a drawing, on paper.
type Listing struct {
	Title    string
	Subtitle string
	Empty    string // stands there when there are no rows
	Rows     []ListingRow
	Page     Point // size of a page in mm
}

// ListingRow is one entry. Its shape and its word say the same.
type ListingRow struct {
	Sign  Sign
	Word  string // of the sign
	Names string // of the items
	Text  string // what there is to say
	Notes []string
}

// Sign is the shape beside a row.
type Sign uint8

const (
	SignError      Sign = iota // square on its corner with a cross
	SignWarning                // triangle with a bar
	SignUnassessed             // box with a question mark
	SignNote                   // ring with a dot
	SignAccepted               // box with a tick
)

// Sizes of a listing in mm.
const (
	listingEdge  = 6.0
	listingTitle = 4.2
	listingText  = 2.6 // em size
	listingSmall = 2.1
	listingWord  = 22.0 // width of the column of signs and words
	listingNames = 28.0
	listingGap   = 3.0
	listingPad   = 1.7 // above and below a row
	listingMost  = 24  // lines of a text, or of the notes below: a row fits every page
)

// Pages lays a listing out. There is at least one page.
func (l Listing) Pages() []*List {
	room := l.Page.Y - 2*listingEdge - l.footHeight()
	var pages [][]ListingRow
	var rest float64
	for _, r := range l.Rows {
		h := l.height(r)
		if len(pages) == 0 || h > rest {
			pages = append(pages, nil)
			rest = room - l.headHeight(len(pages) == 1)
		}
		pages[len(pages)-1] = append(pages[len(pages)-1], r)
		rest -= h
	}
	if len(pages) == 0 {
		pages = [][]ListingRow{nil}
	}
	var out []*List
	for i, rows := range pages {
		out = append(out, l.page(rows, i+1, len(pages)))
	}
	return out
}

func (l Listing) wide() float64 { return l.Page.X - 2*listingEdge }

// textWide is the width of the column of texts.
func (l Listing) textWide() float64 {
	return max(20, l.wide()-listingWord-listingNames-2*listingGap)
}

func (l Listing) headHeight(first bool) float64 {
	h := listingTitle*lineSpace + 3
	if first {
		h += float64(len(wrap(l.Subtitle, l.wide(), listingText, false, 0))) * listingText * lineSpace
	}
	return h
}

func (l Listing) footHeight() float64 {
	return float64(len(wrap(Caution, l.wide(), cautionSize, false, 0)))*cautionSize*lineSpace + 3
}

// lines are the broken lines of a row: names, text and notes.
func (l Listing) lines(r ListingRow) (names, text, notes []string) {
	names = wrap(r.Names, listingNames, listingText, true, 8)
	text = wrap(r.Text, l.textWide(), listingText, false, listingMost)
	for _, n := range r.Notes {
		notes = append(notes, wrap(n, l.textWide(), listingSmall, false, listingMost)...)
	}
	return names, text, notes[:min(len(notes), listingMost)]
}

func (l Listing) height(r ListingRow) float64 {
	names, text, notes := l.lines(r)
	return 2*listingPad + max(sizeMark, float64(len(names))*listingText*lineSpace,
		(float64(len(text))*listingText+float64(len(notes))*listingSmall)*lineSpace)
}

func (l Listing) page(rows []ListingRow, n, of int) *List {
	p := &pen{}
	left, right := listingEdge, l.Page.X-listingEdge
	p.fill(rectPath(Box{Max: l.Page}), InkPaper)
	y := listingEdge
	write := func(s string, x, size float64, bold bool, ink Ink) { p.line(s, x, y, size, bold, ink) }
	title := l.Title
	if n > 1 {
		title += ", continued"
	}
	write(trim(title, l.wide()-30, listingTitle, true), left, listingTitle, true, InkText)
	if of > 1 {
		s := fmt.Sprintf("page %d of %d", n, of)
		p.text(textAt(s, Point{right, y + Ascent(listingTitle)}, atEnd, 0, listingText, false, InkFaint))
	}
	y += listingTitle * lineSpace
	if n == 1 {
		for _, s := range wrap(l.Subtitle, l.wide(), listingText, false, 0) {
			write(s, left, listingText, false, InkFaint)
			y += listingText * lineSpace
		}
	}
	y += 3
	rule := func() { p.stroke(polyline(Point{left, y}, Point{right, y}), thinLine, InkFrame) }
	rule()
	for _, r := range rows {
		l.row(p, r, y)
		y += l.height(r)
		rule()
	}
	if len(rows) == 0 {
		y += listingPad
		for _, s := range wrap(l.Empty, l.wide(), listingText, false, 0) {
			write(s, left, listingText, false, InkText)
			y += listingText * lineSpace
		}
	}
	y = l.Page.Y - listingEdge - l.footHeight() + 3
	for _, s := range wrap(Caution, l.wide(), cautionSize, false, 0) {
		write(s, left, cautionSize, false, InkText)
		y += cautionSize * lineSpace
	}
	return &List{Size: l.Page, Marks: p.marks}
}

// row draws one row from a height on.
func (l Listing) row(p *pen, r ListingRow, y float64) {
	left := listingEdge
	y += listingPad
	p.sign(Point{left + sizeMark/2, y + listingText*lineSpace/2}, r.Sign)
	p.line(r.Word, left+sizeMark+1.2, y, listingText, false, InkText)
	names, text, notes := l.lines(r)
	for i, s := range names {
		at := y + float64(i)*listingText*lineSpace
		p.line(trim(s, listingNames, listingText, true), left+listingWord+listingGap, at, listingText, true, InkText)
	}
	x := left + listingWord + listingNames + 2*listingGap
	for _, s := range text {
		p.line(s, x, y, listingText, false, InkText)
		y += listingText * lineSpace
	}
	for _, s := range notes {
		p.line(s, x, y, listingSmall, false, InkFaint)
		y += listingSmall * lineSpace
	}
}

// line writes a line of text whose top left corner is at x, y.
func (p *pen) line(s string, x, y, size float64, bold bool, ink Ink) {
	p.text(textAt(s, Point{x, y + Ascent(size)}, atStart, 0, size, bold, ink))
}

// sign draws the shape of a row round a point.
func (p *pen) sign(c Point, s Sign) {
	const r, edge = sizeMark / 2, 0.45
	switch s {
	case SignError:
		p.level(c, Error)
	case SignWarning:
		p.level(c, Warn)
	case SignNote:
		p.level(c, Info)
	case SignUnassessed:
		p.stroke(rectPath(Box{c.add(-r+0.3, -r+0.3), c.add(r-0.3, r-0.3)}), edge, InkText)
		p.text(middleText("?", c, 0, 2.4, true, InkText))
	default:
		p.stroke(roundRect(Box{c.add(-r+0.3, -r+0.3), c.add(r-0.3, r-0.3)}, 0.7), edge, InkText)
		p.stroke(polyline(c.add(-0.7, 0.1), c.add(-0.15, 0.7), c.add(0.8, -0.6)), edge, InkText)
	}
}
