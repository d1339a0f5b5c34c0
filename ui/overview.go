package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic/draw"
	"loomwright/schematic/export"
	"loomwright/ui/action"
	"loomwright/ui/view"
)

// overviewWidth is how wide the small picture is at most, and overviewHeight
// how high.
const (
	overviewWidth  = 210
	overviewHeight = 150
)

// overview is a small picture of the whole sheet in the corner of the drawing,
// with a frame round what is seen. A press or a drag moves the drawing there.
type overview struct {
	widget.BaseWidget
	ed      *Editor
	raster  *canvas.Raster
	frame   *canvas.Rectangle
	shown   *export.Plan // what the raster shows
	area    draw.Box     // of the sheet and all that is drawn, in mm
	painter export.Painter
	held    bool
}

var (
	_ desktop.Mouseable  = (*overview)(nil)
	_ desktop.Cursorable = (*overview)(nil)
	_ fyne.Draggable     = (*overview)(nil)
	_ fyne.Scrollable    = (*overview)(nil)
)

func newOverview(ed *Editor) *overview {
	o := &overview{ed: ed, frame: canvas.NewRectangle(color.Transparent)}
	o.raster = canvas.NewRaster(o.paint)
	o.raster.ScaleMode = canvas.ImageScalePixels
	o.frame.StrokeColor, o.frame.StrokeWidth = theme.Color(colorPick), 2
	o.frame.FillColor = faded(theme.Color(colorPick), 0x18)
	o.ExtendBaseWidget(o)
	o.Hidden = !ed.store.Overview
	return o
}

func (o *overview) CreateRenderer() fyne.WidgetRenderer {
	back := canvas.NewRectangle(theme.Color(colorChrome))
	back.StrokeColor, back.StrokeWidth = theme.Color(theme.ColorNameInputBorder), 1
	return widget.NewSimpleRenderer(container.NewStack(back, container.New(padded{3, 3}, o.raster), container.NewClip(container.NewWithoutLayout(o.frame))))
}

// corner lays the overview out in the lower right corner of the drawing, in the
// shape of the sheet.
type corner struct{ o *overview }

func (c corner) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1, 1) }

func (c corner) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	w, h := min(overviewWidth, size.Width/3), min(overviewHeight, size.Height/3)
	if a := c.o.area; a.Max.X > a.Min.X && a.Max.Y > a.Min.Y {
		shape := float32((a.Max.X - a.Min.X) / (a.Max.Y - a.Min.Y))
		w, h = min(w, h*shape), min(h, w/shape)
	}
	for _, o := range objs {
		o.Resize(fyne.NewSize(w, h))
		o.Move(fyne.NewPos(size.Width-w-10, size.Height-h-10))
	}
}

// follow shows the present sheet and what is seen of it.
func (o *overview) follow() {
	if o.Hidden {
		return
	}
	s := o.ed.doc().Sheet(o.ed.sheet)
	if s == nil {
		return
	}
	area := view.BoxMM(s.Area().Union(o.ed.sheetView.drawn()))
	if plan := o.ed.basePicture().plan; plan != o.shown || area != o.area {
		o.shown, o.area = plan, area
		o.ed.frame.corner.Refresh()
		o.raster.Refresh()
	}
	seen := o.ed.sheetView.cam.Visible()
	a, b := o.at(seen.Min), o.at(seen.Max)
	size := o.Size()
	a = fyne.NewPos(max(1, a.X), max(1, a.Y))
	b = fyne.NewPos(min(size.Width-1, b.X), min(size.Height-1, b.Y))
	place(o.frame, a, fyne.NewSize(max(4, b.X-a.X), max(4, b.Y-a.Y)))
}

// perMM is window points per mm of the sheet.
func (o *overview) perMM() float32 {
	size := o.raster.Size()
	return min(size.Width/float32(max(1, o.area.Max.X-o.area.Min.X)), size.Height/float32(max(1, o.area.Max.Y-o.area.Min.Y)))
}

func (o *overview) at(p draw.Point) fyne.Position {
	k, off := o.perMM(), o.raster.Position()
	return fyne.NewPos(off.X+k*float32(p.X-o.area.Min.X), off.Y+k*float32(p.Y-o.area.Min.Y))
}

func (o *overview) paint(w, h int) image.Image {
	frame := o.painter.Frame(w, h)
	if o.shown == nil || w < 2 || h < 2 {
		return frame
	}
	perMM := float64(w) / max(1, o.area.Max.X-o.area.Min.X)
	perMM = min(perMM, float64(h)/max(1, o.area.Max.Y-o.area.Min.Y))
	o.painter.PaintPlan(frame, o.shown, export.View{PxPerMM: perMM, OriginMM: o.area.Min, W: w, H: h}, &o.ed.sheetView.palette)
	return frame
}

// lookAt moves the drawing so that a place of the small picture is its middle.
func (o *overview) lookAt(p fyne.Position) {
	k, off := float64(o.perMM()), o.raster.Position()
	v := o.ed.sheetView
	v.look(v.cam.Centre(draw.Point{X: o.area.Min.X + float64(p.X-off.X)/k, Y: o.area.Min.Y + float64(p.Y-off.Y)/k}))
}

func (o *overview) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		o.held = true
		o.lookAt(e.Position)
	}
}
func (o *overview) MouseUp(*desktop.MouseEvent) { o.held = false }

func (o *overview) Dragged(e *fyne.DragEvent) {
	if o.held {
		o.lookAt(e.Position)
	}
}
func (o *overview) DragEnd()               { o.held = false }
func (o *overview) Cursor() desktop.Cursor { return desktop.PointerCursor }
func (o *overview) Scrolled(e *fyne.ScrollEvent) {
	f := zoomStep
	if e.Scrolled.DY < 0 {
		f = 1 / zoomStep
	}
	o.ed.sheetView.zoom(f)
}

func (ed *Editor) overviewAction() *action.Action {
	return &action.Action{ID: "view.overview", Title: "Overview in the corner", Menu: "View", Keys: []action.Key{action.K("O")}, Words: "small picture map navigate whole sheet mini",
		Help: "Show a small picture of the whole sheet; drag in it to move the drawing", Checked: func() bool { return ed.store.Overview },
		Run: func() {
			ed.store.Overview = !ed.store.Overview
			ed.keepSettings()
			ed.prog.each(func(o *Editor) {
				show(o.frame.overview, o.store.Overview)
				o.frame.overview.shown = nil
				o.frame.overview.follow()
				o.menu.refresh()
			})
		}}
}
