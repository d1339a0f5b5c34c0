package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Sizes of the panels until the user drags them, in window points. In a small
// window they take a share instead, so that the drawing stays the largest.
const (
	trayWidth    = 212
	trayShare    = 0.18
	detailsWidth = 290
	detailsShare = 0.26
	drawerHeight = 206
	drawerShare  = 0.32
	panelMost    = 0.7 // share that a dragged panel may take
)

// steady keeps the panel of a split as large as it is, whatever becomes of the
// window; the drawing gets the rest. The toolkit's split alone keeps shares.
type steady struct {
	split *container.Split
	lead  bool     // the panel comes before the drawing
	below bool     // not beside the drawing but below it
	size  float32  // of the panel until it is dragged
	share float32  // of the room, which it takes at most until it is dragged
	kept  *float32 // what the user made it, 0 for nothing
	put   float64  // the split's offset as laid out last
	room  float32
}

// newSteady lays a panel beside the drawing.
func newSteady(panel, drawing fyne.CanvasObject, s steady) (*steady, fyne.CanvasObject) {
	a, b := panel, drawing
	if !s.lead {
		a, b = drawing, panel
	}
	if s.split = container.NewHSplit(a, b); s.below {
		s.split = container.NewVSplit(a, b)
	}
	return &s, container.New(&s, s.split)
}

// dragged takes over what the user has made of the panel since it was laid out.
func (s *steady) dragged() {
	if s == nil || s.room <= 0 || s.split.Offset == s.put {
		return
	}
	share := s.split.Offset
	if !s.lead {
		share = 1 - share
	}
	*s.kept = float32(share) * s.room
	s.put = s.split.Offset
}

func (s *steady) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	s.dragged()
	if s.room = size.Width; s.below {
		s.room = size.Height
	}
	if s.room <= 0 {
		return
	}
	want := min(s.size, s.share*s.room)
	if *s.kept > 0 {
		want = min(*s.kept, panelMost*s.room)
	}
	s.put = float64(want / s.room)
	if !s.lead {
		s.put = 1 - s.put
	}
	s.split.Offset = s.put
	if s.split.Size() == size {
		s.split.Refresh()
	}
	s.split.Resize(size)
}

func (s *steady) MinSize([]fyne.CanvasObject) fyne.Size { return s.split.MinSize() }

// dragged takes over what the user has made of the panels.
func (f *frame) dragged() {
	if f == nil {
		return
	}
	for _, s := range []*steady{f.left, f.right, f.down} {
		s.dragged()
	}
}

// arrange puts the panels in place that are to be seen.
func (ed *Editor) arrange() {
	f, s := ed.frame, &ed.store.Settings
	f.dragged()
	f.left, f.right, f.down = nil, nil, nil
	var body fyne.CanvasObject = f.centre
	if !s.HideDrawer {
		f.down, body = newSteady(ed.drawer.object(), body, steady{below: true, size: drawerHeight, share: drawerShare, kept: &s.DrawerHeight})
	}
	if !s.HideDetails {
		f.right, body = newSteady(panel(ed.details.object()), body, steady{size: detailsWidth, share: detailsShare, kept: &s.DetailsWidth})
	}
	if !s.HideTray {
		f.left, body = newSteady(panel(ed.tray.object()), body, steady{lead: true, size: trayWidth, share: trayShare, kept: &s.TrayWidth})
	}
	f.holder.Objects = []fyne.CanvasObject{body}
	f.holder.Refresh()
}

// toggleDrawingOnly hides every panel, or shows those again that were in sight.
func (ed *Editor) toggleDrawingOnly() {
	s := &ed.store.Settings
	if s.HideTray && s.HideDetails && s.HideDrawer {
		was := ed.frame.before // at the start of the program: all of them in sight
		s.HideTray, s.HideDetails, s.HideDrawer = was.tray, was.details, was.drawer
	} else {
		ed.frame.before = panelsHidden{s.HideTray, s.HideDetails, s.HideDrawer}
		s.HideTray, s.HideDetails, s.HideDrawer = true, true, true
	}
	ed.keepSettings()
	ed.arrange()
	ed.menu.refresh()
}

// panelsHidden says which panels are out of sight.
type panelsHidden struct{ tray, details, drawer bool }
