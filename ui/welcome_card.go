package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
	"loomwright/ui/view"
)

// The pictures of the examples in the welcome, in window points.
const (
	cardWidth  = 214
	cardHeight = 132
)

// pressable is a picture that does something when it is pressed.
type pressable struct {
	widget.BaseWidget
	img   *canvas.Image
	frame *canvas.Rectangle
	do    func()
}

func newPressable(m image.Image, size fyne.Size, do func()) *pressable {
	p := &pressable{img: canvas.NewImageFromImage(m), frame: canvas.NewRectangle(nil), do: do}
	p.img.SetMinSize(size)
	p.img.FillMode = canvas.ImageFillContain
	p.frame.StrokeWidth = 1
	p.mark(false)
	p.ExtendBaseWidget(p)
	return p
}

func (p *pressable) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(p.img, p.frame))
}

func (p *pressable) mark(on bool) {
	p.frame.StrokeColor = theme.Color(theme.ColorNameInputBorder)
	if on {
		p.frame.StrokeColor = theme.Color(theme.ColorNamePrimary)
	}
	p.frame.Refresh()
}

func (p *pressable) Tapped(*fyne.PointEvent)        { p.do() }
func (p *pressable) MouseIn(*desktop.MouseEvent)    { p.mark(true) }
func (p *pressable) MouseMoved(*desktop.MouseEvent) {}
func (p *pressable) MouseOut()                      { p.mark(false) }
func (p *pressable) Cursor() desktop.Cursor         { return desktop.PointerCursor }

// card shows an example: how it looks, its name to press, what it is about.
func (ed *Editor) card(b *box, s sampleHarness) fyne.CanvasObject {
	a := answer{text: s.title, deed: func() { ed.showSample(s) }}
	about := widget.NewLabel(s.about)
	about.Wrapping = fyne.TextWrapWord
	about.SizeName = theme.SizeNameCaptionText
	col := container.NewVBox()
	if doc, err := s.load(ed.lib); err == nil {
		size := fyne.NewSize(cardWidth, cardHeight)
		col.Add(newPressable(ed.thumbnail(doc, size), size, func() { b.give(a) }))
	}
	col.Add(newBoxButton(b, a))
	col.Add(about)
	return col
}

// thumbnail paints what is drawn on the first sheet of a document as large as
// it fits.
func (ed *Editor) thumbnail(doc *schematic.Doc, size fyne.Size) image.Image {
	scale := 2 * max(1, ed.sheetView.scale) // fine lines stay lines
	m := image.NewRGBA(image.Rect(0, 0, int(float64(size.Width)*scale), int(float64(size.Height)*scale)))
	sheet := doc.Sheets()[0].ID
	list := draw.Sheet(doc, sheet, draw.Options{})
	area := view.Drawn(doc, sheet).Grow(100)
	x0, y0 := area.Min.MM()
	x1, y1 := area.Max.MM()
	w, h := float64(m.Rect.Dx()), float64(m.Rect.Dy())
	zoom := min(w/(x1-x0), h/(y1-y0))
	pal := ed.sheetView.palette
	pal.Desk = pal.Paper()
	var p export.Painter
	p.Paint(m, list, export.View{PxPerMM: zoom, OriginMM: draw.Point{X: (x0+x1)/2 - w/2/zoom, Y: (y0+y1)/2 - h/2/zoom}, W: m.Rect.Dx(), H: m.Rect.Dy(), Exact: true}, &pal)
	return m
}
