package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// columns gives each object its own width; a width of 0 takes the rest.
type columns []float32

func (c columns) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	rest := size.Width
	for _, w := range c {
		rest -= w
	}
	x := float32(0)
	for i, o := range objs {
		w := c[i]
		if w == 0 {
			w = max(0, rest)
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w, size.Height))
		x += w
	}
}

func (c columns) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for i, o := range objs {
		m.Height = max(m.Height, o.MinSize().Height)
		m.Width += c[i]
	}
	return m
}

// fillLayout gives the first object a fixed width, the second the rest, and
// both the whole height.
type fillLayout struct{ first float32 }

func (f fillLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(f.first, size.Height))
	o[0].Move(fyne.NewPos(0, 0))
	o[1].Resize(fyne.NewSize(max(0, size.Width-f.first), size.Height))
	o[1].Move(fyne.NewPos(f.first, 0))
}

func (f fillLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(f.first+240, 320) }

// padded sets an object with room at its sides and above and below.
type padded struct{ x, y float32 }

func (p padded) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Move(fyne.NewPos(p.x, p.y))
		o.Resize(fyne.NewSize(max(0, size.Width-2*p.x), max(0, size.Height-2*p.y)))
	}
}

func (p padded) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range objs {
		m = m.Max(o.MinSize())
	}
	return m.AddWidthHeight(2*p.x, 2*p.y)
}

// clearOfBar leaves room for a scroll bar at the right of an object, which the
// toolkit draws over what it scrolls.
type clearOfBar struct{}

func (clearOfBar) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Move(fyne.NewPos(0, 0))
		o.Resize(fyne.NewSize(max(0, size.Width-theme.ScrollBarSize()), size.Height))
	}
}

func (clearOfBar) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range objs {
		m = m.Max(o.MinSize())
	}
	return m.AddWidthHeight(theme.ScrollBarSize(), 0)
}

// stackTight puts objects below each other without room between them.
type stackTight struct{}

func (stackTight) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		// Wrapped text knows its height only once it has its width.
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(size.Width, h))
		o.Move(fyne.NewPos(0, y))
		y += h
	}
}

func (stackTight) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range objs {
		if o.Visible() {
			s := o.MinSize()
			m.Width, m.Height = max(m.Width, s.Width), m.Height+s.Height
		}
	}
	return m
}
