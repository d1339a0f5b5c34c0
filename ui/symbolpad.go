package ui

import (
	"fmt"
	"image"
	xdraw "image/draw"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
	"loomwright/schematic/geom"
)

// symbolPad shows the symbol of a kind in the making on its grid and, where
// something of it is in hand, lets it be drawn: the place pressed and the place
// it is dragged to are told as they are in the symbol.
type symbolPad struct {
	widget.BaseWidget
	ed      *Editor
	image   *canvas.Image
	marks   *fyne.Container // points of the stroke in hand
	place   *widget.Label
	painter export.Painter
	symbol  *draw.List
	middle  geom.Point // of the picture, in the symbol
	half    int        // from the middle to its edge, units
	points  []geom.Point
	// begin says whether something can be drawn; drag is told the place pressed
	// and the place now, end that it is over.
	begin func() bool
	drag  func(from, to geom.Point)
	end   func()

	held bool
	from geom.Point
	fine bool
}

const (
	padSize  = 300
	padSteps = 60 // the picture grows by so many units
	fineStep = 5  // units, with Shift
)

var (
	_ desktop.Mouseable  = (*symbolPad)(nil)
	_ desktop.Hoverable  = (*symbolPad)(nil)
	_ desktop.Cursorable = (*symbolPad)(nil)
	_ fyne.Draggable     = (*symbolPad)(nil)
)

func newSymbolPad(ed *Editor) *symbolPad {
	p := &symbolPad{ed: ed, half: 150, place: widget.NewLabel(" ")}
	p.image = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleSmooth}
	p.marks = container.NewWithoutLayout()
	p.place.Importance = widget.LowImportance
	p.ExtendBaseWidget(p)
	return p
}

func (p *symbolPad) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(p.image, p.marks))
}

func (p *symbolPad) MinSize() fyne.Size { return fyne.NewSquareSize(padSize) }

func (p *symbolPad) Resize(s fyne.Size) {
	p.BaseWidget.Resize(s)
	p.showPoints()
}

// show paints a kind; points are those of the stroke or pin in hand. While
// something is drawn the picture stays where it is.
func (p *symbolPad) show(lib *schematic.Library, k *schematic.Kind, points []geom.Point) {
	symbol, reach := kindMarks(lib, k)
	p.points = points
	if symbol == nil {
		p.showPoints()
		return
	}
	p.symbol = symbol
	if !p.held {
		p.frame(k, reach)
	}
	p.paint()
}

// frame chooses what of the symbol the picture shows: all of it with room round
// it.
func (p *symbolPad) frame(k *schematic.Kind, reach draw.Box) {
	at := func(mm, home float64) int { return int(math.Round(mm*geom.PerMM - home)) }
	x0, y0 := at(reach.Min.X, float64(kindHome.X)), at(reach.Min.Y, float64(kindHome.Y))
	x1, y1 := at(reach.Max.X, float64(kindHome.X)), at(reach.Max.Y, float64(kindHome.Y))
	step := geom.Grid
	if len(k.Sections) > 0 && k.Sections[0].Form == "" {
		step *= 4 // it shall not jump with every stroke
	}
	p.middle = geom.Pt((x0+x1)/2, (y0+y1)/2).Snap(step)
	need := max(p.middle.X-x0, x1-p.middle.X, p.middle.Y-y0, y1-p.middle.Y) + geom.Grid
	p.half = max(90, (need+padSteps-1)/padSteps*padSteps)
}

func (p *symbolPad) paint() {
	v := p.ed.sheetView
	px := int(padSize * max(v.scale, 1) * 2)
	img := image.NewRGBA(image.Rect(0, 0, px, px))
	pal := v.palette
	pal.Desk, pal.Inks[draw.InkPaper] = v.palette.Paper(), v.palette.Paper()
	corner := kindHome.Add(p.middle).Sub(geom.Pt(p.half, p.half))
	x, y := corner.MM()
	p.painter.Paint(img, p.symbol, export.View{
		PxPerMM: float64(px) * geom.PerMM / float64(2*p.half), OriginMM: draw.Point{X: x, Y: y}, W: px, H: px, Exact: true,
	}, &pal)
	p.dots(img)
	p.image.Image = img
	p.image.Refresh()
	p.showPoints()
}

// dots marks the grid, also over what is drawn: that is what is drawn along it.
func (p *symbolPad) dots(img *image.RGBA) {
	px := img.Bounds().Dx()
	ink := theme.Color(colorFaint)
	at := func(v, mid int) int { return (v - mid + p.half) * px / (2 * p.half) }
	for y := (p.middle.Y - p.half) / geom.Grid * geom.Grid; y <= p.middle.Y+p.half; y += geom.Grid {
		for x := (p.middle.X - p.half) / geom.Grid * geom.Grid; x <= p.middle.X+p.half; x += geom.Grid {
			c := image.Pt(at(x, p.middle.X), at(y, p.middle.Y))
			xdraw.Draw(img, image.Rectangle{c, c.Add(image.Pt(2, 2))}, image.NewUniform(ink), image.Point{}, xdraw.Over)
		}
	}
}

// showPoints puts a small square at each point of what is in hand, and a cross
// where the symbol has its origin.
func (p *symbolPad) showPoints() {
	p.marks.Objects = nil
	ink := theme.Color(colorFaint)
	o := p.windowPoint(geom.Point{})
	for _, d := range []fyne.Delta{fyne.NewDelta(5, 0), fyne.NewDelta(0, 5)} {
		l := canvas.NewLine(ink)
		l.Position1, l.Position2 = o.SubtractXY(d.DX, d.DY), o.AddXY(d.DX, d.DY)
		p.marks.Add(l)
	}
	const most = 40
	for _, at := range p.points[:min(len(p.points), most)] {
		r := canvas.NewRectangle(theme.Color(theme.ColorNameBackground))
		r.StrokeColor, r.StrokeWidth = theme.Color(colorPick), 2
		r.Resize(fyne.NewSquareSize(8))
		r.Move(p.windowPoint(at).SubtractXY(4, 4))
		p.marks.Add(r)
	}
	p.marks.Refresh()
}

func (p *symbolPad) windowPoint(at geom.Point) fyne.Position {
	s := p.Size()
	f := func(v, mid int, size float32) float32 { return (float32(v-mid)/float32(2*p.half) + 0.5) * size }
	return fyne.NewPos(f(at.X, p.middle.X, s.Width), f(at.Y, p.middle.Y, s.Height))
}

// symbolPoint is the place in the symbol below a place in the window, on the
// grid or with Shift finer.
func (p *symbolPad) symbolPoint(at fyne.Position) geom.Point {
	s := p.Size()
	f := func(v, size float32, mid int) int {
		return mid + int(math.Round(float64(2*p.half)*(float64(v)/float64(max(size, 1))-0.5)))
	}
	step := geom.Grid
	if p.fine {
		step = fineStep
	}
	return geom.Pt(f(at.X, s.Width, p.middle.X), f(at.Y, s.Height, p.middle.Y)).Snap(step)
}

func (p *symbolPad) Cursor() desktop.Cursor {
	if p.begin != nil && p.begin() {
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

func (p *symbolPad) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

func (p *symbolPad) MouseMoved(e *desktop.MouseEvent) {
	p.fine = heldMods()&fyne.KeyModifierShift != 0
	p.say(p.symbolPoint(e.Position))
}

func (p *symbolPad) MouseOut() {
	if !p.held {
		p.place.SetText(" ")
	}
}

func (p *symbolPad) say(at geom.Point) {
	x, y := at.MM()
	mm := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	p.place.SetText(fmt.Sprintf("%s  %s mm", mm(x), mm(y)))
}

func (p *symbolPad) MouseDown(e *desktop.MouseEvent) {
	if e.Button != desktop.MouseButtonPrimary || p.begin == nil || !p.begin() {
		return
	}
	p.fine = e.Modifier&fyne.KeyModifierShift != 0
	// What is taken hold of may lie off the grid: look for it finely.
	free := p.fine
	p.fine = true
	p.from = p.symbolPoint(e.Position)
	p.fine = free
	if !p.near(p.from) {
		p.from = p.symbolPoint(e.Position)
	}
	p.held = true
}

func (p *symbolPad) near(at geom.Point) bool {
	for _, q := range p.points {
		if q.Dist(at) <= geom.Grid/2 {
			return true
		}
	}
	return false
}

func (p *symbolPad) Dragged(e *fyne.DragEvent) {
	if !p.held {
		return
	}
	p.fine = heldMods()&fyne.KeyModifierShift != 0
	to := p.symbolPoint(e.Position)
	p.say(to)
	p.drag(p.from, to)
}

func (p *symbolPad) DragEnd() { p.release() }

// MouseUp without a drag is a press at one place.
func (p *symbolPad) MouseUp(e *desktop.MouseEvent) {
	if p.held && e.Button == desktop.MouseButtonPrimary {
		p.drag(p.from, p.symbolPoint(e.Position))
		p.release()
	}
}

func (p *symbolPad) release() {
	if p.held {
		p.held = false
		p.end()
	}
}
