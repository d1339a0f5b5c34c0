package ui

import (
	"image"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/export"
	"loomwright/schematic/geom"
)

// tray is the list of part kinds to take from: grouped, or what a search finds.
type tray struct {
	ed     *Editor
	search *entry
	list   *rows
	rows   []trayRow
	closed map[string]bool   // groups folded up
	own    []*schematic.Kind // listed as the drawing's and the user's own
	faces  map[*schematic.Kind]image.Image
	none   *widget.Label // said when nothing is found
	box    fyne.CanvasObject
	quiet  bool
	marked int // the row that Enter in the search takes, -1 for the best
}

// trayRow is a heading or a kind.
type trayRow struct {
	group string
	n     int
	kind  *schematic.Kind
}

func newTray(ed *Editor) *tray {
	t := &tray{ed: ed, marked: -1, closed: map[string]bool{}, faces: map[*schematic.Kind]image.Image{}}
	t.search = newEntry(nil)
	t.search.SetPlaceHolder("Find a part")
	t.search.SetIcon(icon("search"))
	t.search.changed = func(string) { t.refresh() }
	t.search.OnSubmitted = func(string) { t.takeMarked() }
	t.search.key = t.searchKey
	t.list = newRows(ed.typedKey, func() int { return len(t.rows) },
		func() fyne.CanvasObject { return newTrayCell(ed.tips) },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(t.rows) {
				t.show(o.(*trayCell), t.rows[i])
			}
		})
	t.list.OnSelected = func(i widget.ListItemID) {
		if t.quiet || i >= len(t.rows) {
			return
		}
		t.pick(t.rows[i])
	}
	t.none = widget.NewLabel("No part answers to these words: try fewer or other ones. Esc shows all.")
	t.none.Wrapping, t.none.Importance = fyne.TextWrapWord, widget.LowImportance
	t.box = container.NewBorder(container.New(padded{4, 4}, t.search), nil, nil, nil, container.NewStack(t.list, container.NewVBox(t.none)))
	t.refresh()
	return t
}

func (t *tray) object() fyne.CanvasObject { return t.box }

// refresh lists the kinds that fit the search.
func (t *tray) refresh() {
	if t.list == nil {
		return
	}
	t.rows = t.rows[:0]
	lib := t.library()
	if t.search.Text != "" {
		for _, k := range catalog.Search(lib, t.search.Text) {
			t.rows = append(t.rows, trayRow{kind: k})
		}
	} else {
		for _, g := range t.groups(lib) {
			t.rows = append(t.rows, trayRow{group: g.Name, n: len(g.Kinds)})
			if !t.closed[g.Name] {
				for _, k := range g.Kinds {
					t.rows = append(t.rows, trayRow{kind: k})
				}
			}
		}
	}
	show(t.none, len(t.rows) == 0)
	t.marked = -1
	t.quiet = true
	t.list.UnselectAll()
	t.quiet = false
	t.list.Refresh()
	if t.search.Text != "" {
		t.list.ScrollToTop()
	}
}

// library returns the program's kinds, the document's and the user's own.
func (t *tray) library() *schematic.Library {
	var kinds []*schematic.Kind
	for _, name := range t.ed.lib.Names() {
		kinds = append(kinds, t.ed.lib.Kind(name))
	}
	return schematic.NewLibrary(append(kinds, t.ed.ownKinds()...)...)
}

// groups puts the drawing's and the user's own kinds under a heading of theirs.
func (t *tray) groups(lib *schematic.Library) []catalog.Group {
	own := t.ed.ownKinds()
	if len(own) == 0 {
		return catalog.Groups(lib)
	}
	var rest []*schematic.Kind
	for _, name := range lib.Names() {
		if !slices.ContainsFunc(own, func(k *schematic.Kind) bool { return k.Name == name }) {
			rest = append(rest, lib.Kind(name))
		}
	}
	return append([]catalog.Group{{Name: ownGroup, Kinds: own}}, catalog.Groups(schematic.NewLibrary(rest...))...)
}

// followKinds lists the kinds anew when those of the drawing are others.
func (t *tray) followKinds() {
	own := t.ed.ownKinds()
	if !slices.Equal(own, t.own) {
		t.own = own
		t.refresh()
	}
}

func (t *tray) pick(r trayRow) {
	if r.kind == nil {
		t.closed[r.group] = !t.closed[r.group]
		t.refresh()
		return
	}
	t.ed.bringKind(r.kind.Name)
	t.ed.takePart(r.kind.Name)
}

// follow takes the mark off the row whose part is no longer in hand.
func (t *tray) follow() {
	if t.ed.tools.Tool() != placeTool {
		t.list.UnselectAll()
	}
}

// searchKey walks through what the search found with the arrow keys, and takes
// the search back with Esc.
func (t *tray) searchKey(k *fyne.KeyEvent) bool {
	switch {
	case k.Name == fyne.KeyDown:
		t.mark(1)
	case k.Name == fyne.KeyUp:
		t.mark(-1)
	case k.Name == fyne.KeyEscape && t.search.Text != "":
		t.search.SetText("")
	default:
		return false
	}
	return true
}

// mark marks the next row with a part, or the one before.
func (t *tray) mark(step int) {
	i := t.marked
	if i < 0 && step > 0 && t.search.Text != "" {
		i = 0 // Enter takes the first anyway: the next is the second
	}
	for i += step; i >= 0 && i < len(t.rows); i += step {
		if t.rows[i].kind != nil {
			t.marked = i
			t.quiet = true
			t.list.Select(i)
			t.quiet = false
			return
		}
	}
}

// takeMarked takes the marked row, or the best match of the search, in hand.
func (t *tray) takeMarked() {
	if t.marked >= 0 && t.marked < len(t.rows) {
		t.pick(t.rows[t.marked])
		return
	}
	for _, r := range t.rows {
		if r.kind != nil {
			t.pick(r)
			return
		}
	}
}

// face is a small picture of a kind's symbol, painted as on the sheet.
func (t *tray) face(k *schematic.Kind) image.Image {
	if img, ok := t.faces[k]; ok {
		return img
	}
	img := kindPicture(t.ed.doc().Library(), k, &t.ed.sheetView.palette, t.ed.sheetView.scale)
	t.faces[k] = img
	return img
}

// kindPicture paints the symbol of a kind alone for the tray.
func kindPicture(lib *schematic.Library, k *schematic.Kind, pal *export.Palette, scale float64) image.Image {
	return kindPictureIn(lib, k, pal, scale, faceSize)
}

// kindPictureIn paints the symbol of a kind alone, on clear ground, into a
// square of that many window points.
func kindPictureIn(lib *schematic.Library, k *schematic.Kind, pal *export.Palette, scale, size float64) image.Image {
	px := int(size * max(scale, 1) * 2)
	blank := image.NewRGBA(image.Rect(0, 0, px, px))
	symbol, reach := kindMarks(lib, k)
	if symbol == nil {
		return blank
	}
	zoom := min(float64(px)/max(reach.Max.X-reach.Min.X, reach.Max.Y-reach.Min.Y, 1), 3.2*scale*2*max(1, size/faceSize/2))
	pal2 := *pal
	pal2.Desk, pal2.Inks[draw.InkPaper] = pal.Paper(), pal.Paper()
	var p export.Painter
	p.Paint(blank, symbol, export.View{
		PxPerMM:  zoom,
		OriginMM: draw.Point{X: (reach.Min.X+reach.Max.X)/2 - float64(px)/2/zoom, Y: (reach.Min.Y+reach.Max.Y)/2 - float64(px)/2/zoom},
		W:        px, H: px, Exact: true,
	}, &pal2)
	return blank
}

// kindHome is where the symbol of a kind stands while it is painted alone.
var kindHome = geom.Pt(2000, 1500)

// kindMarks draws the symbol of a kind alone, its origin at kindHome; the reach
// is in mm. Nil is what cannot be drawn.
func kindMarks(lib *schematic.Library, k *schematic.Kind) (symbol *draw.List, reach draw.Box) {
	tx := edit.Begin(schematic.New(lib), nil)
	if err := edit.AddSheet(tx, "1"); err != nil {
		return nil, reach
	}
	sheet := tx.Doc().Sheets()[0].ID
	if lib.Kind(k.Name) == nil {
		own := *k
		tx.Put(&own)
	}
	if err := edit.PlacePart(tx, k.Name, sheet, kindHome, geom.Orient{}); err != nil {
		return nil, reach
	}
	var part *schematic.Part
	for p := range tx.Doc().Parts() {
		if p.Kind == k.Name {
			part = p
		}
	}
	if part == nil {
		return nil, reach
	}
	doc := tx.Doc()
	list := draw.Sheet(doc, sheet, draw.Options{})
	symbol = &draw.List{Size: list.Size}
	r := doc.Reach(part, part.Views[0]).Grow(geom.Grid / 5)
	x0, y0 := r.Min.MM()
	x1, y1 := r.Max.MM()
	for _, m := range list.Marks {
		if _, isText := m.Op.(*draw.Text); m.Owner == part.Key() && !(isText && outside(m.Bound, x0, y0, x1, y1)) {
			symbol.Marks = append(symbol.Marks, m)
		}
	}
	return symbol, draw.Box{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}
}

func outside(b draw.Box, x0, y0, x1, y1 float64) bool {
	return b.Max.X < x0 || b.Min.X > x1 || b.Max.Y < y0 || b.Min.Y > y1
}
