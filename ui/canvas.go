package ui

import (
	"image"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
	"loomwright/schematic/geom"
	"loomwright/ui/view"
)

// sheetView shows one sheet: a picture painted by the painter that also makes
// the files, and an overlay for what follows the pointer. Panning and zooming
// only change the camera; the picture is painted when the window asks for it,
// at most once a frame.
type sheetView struct {
	widget.BaseWidget
	ed      *Editor
	raster  *canvas.Raster
	over    *overlay
	clip    *container.Clip
	painter export.Painter
	palette export.Palette

	cam    view.Camera
	scale  float64       // device pixels per window point
	fitted bool          // the camera has been set for this sheet
	whole  bool          // the whole sheet is shown and stays so when the window grows
	took   time.Duration // to paint the last picture, when that is wanted
	paints int           // pictures painted so far, and
	asked  int           // how often one was asked for; tests count both
	cursor desktop.Cursor
	hand   pointer
	byKey  keyPointer
	// altMenu keeps Alt in a gesture from opening the menu bar.
	altMenu menuShutter
	extent  extent // of the document last looked at
}

func newSheetView(ed *Editor) *sheetView {
	v := &sheetView{ed: ed, over: newOverlay(), scale: 1, cursor: desktop.DefaultCursor}
	v.raster = canvas.NewRaster(v.paint)
	v.raster.ScaleMode = canvas.ImageScalePixels
	v.clip = container.NewClip(v.over.box)
	v.ExtendBaseWidget(v)
	v.retheme()
	return v
}

// retheme takes the colours of the present theme.
func (v *sheetView) retheme() {
	if v.ed.prog.dark {
		v.palette = export.Dark()
	} else {
		v.palette = export.Light()
	}
	v.repaint()
}

func (v *sheetView) CreateRenderer() fyne.WidgetRenderer {
	return &sheetRenderer{v}
}

func (v *sheetView) MinSize() fyne.Size { return fyne.NewSize(240, 160) }

// sheetRenderer gives the picture a whole-pixel place and size; otherwise the
// window blurs it.
type sheetRenderer struct{ v *sheetView }

func (r *sheetRenderer) Layout(size fyne.Size) {
	v := r.v
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil && c.Scale() > 0 {
		v.scale = float64(c.Scale())
	}
	abs := fyne.CurrentApp().Driver().AbsolutePositionForObject(v)
	dx, w := whole(abs.X, size.Width, v.scale)
	dy, h := whole(abs.Y, size.Height, v.scale)
	for _, o := range r.Objects() {
		o.Move(fyne.NewPos(dx, dy))
		o.Resize(fyne.NewSize(w, h))
	}
	v.setSize(int(math.Round(float64(w)*v.scale)), int(math.Round(float64(h)*v.scale)))
}

// whole returns how far to move and how long to make a stretch so that it
// begins and ends on whole device pixels.
func whole(at, length float32, scale float64) (move, size float32) {
	lo := math.Ceil(float64(at)*scale - 1e-3)
	hi := math.Floor((float64(at)+float64(length))*scale + 1e-3)
	return float32(lo/scale) - at, float32(max(0, hi-lo) / scale)
}

func (r *sheetRenderer) MinSize() fyne.Size { return r.v.MinSize() }
func (r *sheetRenderer) Refresh()           { r.v.repaint() }
func (r *sheetRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.v.raster, r.v.clip}
}
func (r *sheetRenderer) Destroy() {}

// setSize tells the camera the size of the picture in device pixels.
func (v *sheetView) setSize(w, h int) {
	if w == v.cam.W && h == v.cam.H {
		return
	}
	if v.cam.PxPerMM <= 0 {
		v.cam.W, v.cam.H = w, h
	} else {
		v.cam = v.cam.Resize(w, h)
	}
	if (!v.fitted || v.whole) && w > 0 && h > 0 {
		v.fit()
		return
	}
	v.refreshOverlay()
}

// paint is the raster's generator; it runs in the window's goroutine.
func (v *sheetView) paint(w, h int) image.Image {
	if size := v.raster.Size(); size.Width > 0 {
		if s := float64(w) / float64(size.Width); math.Abs(s-v.scale) > 0.01 {
			v.scale = s
		}
	}
	v.setSize(w, h)
	v.paints++
	if start := time.Now(); v.ed.prog.frames {
		// Written with the next event: text must not change while the window is painted.
		defer func() { v.took = time.Since(start) }()
	}
	frame := v.painter.Frame(w, h)
	v.painter.PaintPlan(frame, v.ed.shownPicture().plan, export.View{
		PxPerMM: v.cam.PxPerMM, OriginMM: v.cam.Origin, W: w, H: h, Dots: !v.ed.store.HideGrid,
	}, &v.palette)
	return frame
}

// repaint asks for a new picture.
func (v *sheetView) repaint() {
	v.asked++
	if v.raster != nil {
		v.raster.Refresh()
	}
}

// look changes the camera.
func (v *sheetView) look(cam view.Camera) {
	if s := v.ed.doc().Sheet(v.ed.sheet); s != nil {
		cam = cam.Keep(view.BoxMM(s.Area().Union(v.drawn())))
	}
	if cam == v.cam {
		return
	}
	v.cam, v.whole = cam, false
	v.repaint()
	v.refreshOverlay()
	v.ed.status.showZoom()
	if v.ed.study.live {
		v.ed.status.showHint()
	}
	v.underPointer()
}

// drawn returns the area of everything drawn on the sheet in sight.
func (v *sheetView) drawn() geom.Rect {
	if at := (extent{doc: v.ed.doc(), sheet: v.ed.sheet}); v.extent.doc != at.doc || v.extent.sheet != at.sheet {
		at.area = view.Drawn(at.doc, at.sheet)
		v.extent = at
	}
	return v.extent.area
}

// extent is how far a sheet's drawing reaches.
type extent struct {
	doc   *schematic.Doc
	sheet schematic.ID
	area  geom.Rect
}

// readablePx is the height of letters in device pixels below which the figures
// on wires are left out or cannot be read.
const readablePx = 5

// tagsTooSmall reports whether the figures on the drawing are too small to read.
func (v *sheetView) tagsTooSmall() bool {
	tags := v.ed.basePicture().tags
	return tags > 0 && tags*v.cam.PxPerMM < readablePx
}

// fit shows the whole sheet.
func (v *sheetView) fit() {
	s := v.ed.doc().Sheet(v.ed.sheet)
	if s == nil || v.cam.W == 0 {
		return
	}
	v.fitted = true
	v.look(v.cam.Fit(view.BoxMM(s.Area()), 12*v.scale))
	v.whole = true
	v.refreshOverlay()
}

// fitTo shows an area of the sheet with some room round it, not closer than
// four times life size.
func (v *sheetView) fitTo(r geom.Rect) {
	if r.Empty() {
		v.fit()
		return
	}
	v.fitted = true
	cam := v.cam.Fit(view.BoxMM(r.Grow(4*geom.Grid)), 24*v.scale)
	if most := 4 * v.lifeSize(); cam.PxPerMM > most {
		cam = cam.ZoomTo(most, draw.Point{X: float64(cam.W) / 2, Y: float64(cam.H) / 2})
	}
	v.look(cam)
}

// bring makes sure an area of the sheet is in sight, moving as little as
// pleases the eye: not at all when it is, else to the middle.
func (v *sheetView) bring(r geom.Rect) {
	box := view.BoxMM(r.Grow(2 * geom.Grid))
	if v.cam.Shows(box) {
		return
	}
	if v.cam.PxPerMM <= 0 || !v.cam.Centre(middle(box)).Shows(box) {
		v.fitTo(r)
		return
	}
	v.look(v.cam.Centre(middle(box)))
}

func middle(b draw.Box) draw.Point {
	return draw.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
}

// lifeSize is the zoom, in device pixels per mm, that shows paper at its own
// size on a screen of 96 dots per inch.
func (v *sheetView) lifeSize() float64 { return 96 / 25.4 * v.scale }

// zoom zooms about the middle of the window.
func (v *sheetView) zoom(factor float64) {
	v.look(v.cam.Zoom(factor, draw.Point{X: float64(v.cam.W) / 2, Y: float64(v.cam.H) / 2}))
}

// refreshOverlay lays the overlay out for the document as shown.
func (v *sheetView) refreshOverlay() {
	sight := v.cam.Visible()
	v.over.changes = v.ed.changeMarks(geom.Rect{Min: geom.FromMM(sight.Min.X, sight.Min.Y), Max: geom.FromMM(sight.Max.X, sight.Max.Y)})
	if f := v.ed.frame; f != nil && f.overview != nil {
		f.overview.follow()
	}
	v.over.refresh(pane{v.cam, v.scale, v.ed.shownDoc(), v.ed.sheet}, v.ed.sess.Selection())
}

// toPx returns the device pixel of a place in the widget.
func (v *sheetView) toPx(p fyne.Position) draw.Point {
	off := v.raster.Position()
	return draw.Point{X: float64(p.X-off.X) * v.scale, Y: float64(p.Y-off.Y) * v.scale}
}

// sheetPoint returns the sheet point under a place in the widget.
func (v *sheetView) sheetPoint(p fyne.Position) geom.Point { return v.cam.At(v.toPx(p)) }

// windowPoint returns the place in the widget that shows a sheet point.
func (v *sheetView) windowPoint(p geom.Point) fyne.Position {
	px := v.cam.PointPx(p)
	off := v.raster.Position()
	return fyne.NewPos(float32(px.X/v.scale)+off.X, float32(px.Y/v.scale)+off.Y)
}

// scene is what tools see just now.
func (v *sheetView) scene() scene {
	s := scene{
		Snapshot: v.ed.doc(), On: v.ed.sheet, Chosen: v.ed.sess.Selection(),
		Camera: v.cam, Scale: v.scale, Unguided: v.ed.store.HideGuides, Drawn: v.ed.drawn,
	}
	if p := v.ed.basePicture(); p.index != nil {
		s.Find = finder{p.index}
	}
	if v.byKey.on {
		s.Exactly = keyReach
	}
	return s
}
