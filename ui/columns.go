package ui

import "fyne.io/fyne/v2"

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
