package ui

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
)

// sheetTabs are the index tabs of the sheets above the drawing. A press shows
// a sheet, a double press renames it, a drag moves it.
type sheetTabs struct {
	ed  *Editor
	row *fyne.Container
	box fyne.CanvasObject
	all []*sheetTab

	scroll *container.Scroll
	shown  schematic.ID // the sheet whose tab was brought in sight last
}

func newSheetTabs(ed *Editor) *sheetTabs {
	t := &sheetTabs{ed: ed, row: container.NewHBox()}
	a := ed.actions.Find("sheet.add")
	add := newButton(ed.tips, "", "plus", a.Title+keyHint(a.Keys), func() { ed.run(a) })
	add.stress(false)
	t.scroll = container.NewHScroll(t.row)
	container.NewThemeOverride(t.scroll, barless{}) // a bar would lie across the names
	t.box = container.NewStack(newGround(theme.ColorNameBackground), container.NewBorder(nil, nil, nil, add, t.scroll))
	t.refresh()
	return t
}

func (t *sheetTabs) object() fyne.CanvasObject { return t.box }

// refresh follows the document; tabs are made anew only when they differ.
func (t *sheetTabs) refresh() {
	sheets := t.ed.doc().Sheets()
	same := len(sheets) == len(t.all)
	for i := 0; same && i < len(sheets); i++ {
		same = t.all[i].id == sheets[i].ID && t.all[i].text.Text == sheets[i].Name
	}
	if !same {
		t.all = nil
		t.row.Objects = nil
		for _, s := range sheets {
			tab := newSheetTab(t, s)
			t.all = append(t.all, tab)
			t.row.Add(tab)
		}
		t.row.Refresh()
		t.scroll.Refresh() // the row has another width
	}
	for _, tab := range t.all {
		tab.setActive(tab.id == t.ed.sheet)
	}
	if t.shown != t.ed.sheet || !same {
		t.reveal()
	}
}

// reveal brings the tab of the sheet in sight wholly in sight.
func (t *sheetTabs) reveal() {
	room := t.scroll.Size().Width
	if room <= 0 {
		return
	}
	t.shown = t.ed.sheet
	x := float32(0)
	for _, tab := range t.all {
		w := tab.MinSize().Width
		if tab.id == t.ed.sheet {
			t.scroll.ScrollToOffset(fyne.NewPos(max(0, min(t.scroll.Offset.X, x), x+w-room), 0))
			return
		}
		x += w + theme.Padding()
	}
}

// sheetTab is one tab.
type sheetTab struct {
	widget.BaseWidget
	tabs   *sheetTabs
	id     schematic.ID
	text   *canvas.Text
	back   *canvas.Rectangle
	under  *canvas.Rectangle
	active bool
	over   bool
	moved  float32
	tapped time.Time
}

func newSheetTab(t *sheetTabs, s *schematic.Sheet) *sheetTab {
	tab := &sheetTab{tabs: t, id: s.ID}
	tab.text = canvas.NewText(s.Name, color.Black)
	tab.text.TextSize = theme.TextSize()
	tab.back = canvas.NewRectangle(color.Transparent)
	tab.under = canvas.NewRectangle(color.Transparent)
	tab.under.SetMinSize(fyne.NewSize(1, 2))
	tab.ExtendBaseWidget(tab)
	tab.paint()
	return tab
}

func (t *sheetTab) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(t.back,
		container.NewBorder(nil, t.under, nil, nil, container.New(padded{14, 5}, t.text))))
}

func (t *sheetTab) setActive(on bool) {
	if t.active != on {
		t.active = on
		t.paint()
	}
}

func (t *sheetTab) paint() {
	t.text.TextStyle.Bold = t.active
	t.text.Color = theme.Color(theme.ColorNameForeground)
	t.back.FillColor = color.Transparent
	t.under.FillColor = color.Transparent
	switch {
	case t.active:
		t.back.FillColor = theme.Color(theme.ColorNameInputBackground)
		t.under.FillColor = theme.Color(theme.ColorNamePrimary)
	case t.over:
		t.back.FillColor = theme.Color(theme.ColorNameHover)
	default:
		t.text.Color = theme.Color(colorFaint)
	}
	t.text.Refresh()
	t.back.Refresh()
	t.under.Refresh()
}

func (t *sheetTab) MouseIn(e *desktop.MouseEvent) {
	t.over = true
	t.paint()
	t.tabs.ed.tips.plan("Double press to rename, drag to move, right button for more", e.AbsolutePosition)
}
func (t *sheetTab) MouseMoved(*desktop.MouseEvent) {}
func (t *sheetTab) MouseOut() {
	t.over = false
	t.tabs.ed.tips.hide()
	t.paint()
}

func (t *sheetTab) Tapped(*fyne.PointEvent) {
	t.tabs.ed.tips.hide()
	now := t.tabs.ed.now()
	twice := t.active && now.Sub(t.tapped) < doubleClick
	t.tapped = now
	t.tabs.ed.show(t.id)
	if twice {
		t.tabs.ed.renameSheet()
	}
}

func (t *sheetTab) TappedSecondary(e *fyne.PointEvent) {
	ed := t.tabs.ed
	ed.tips.hide()
	ed.show(t.id)
	ed.popUp(e.AbsolutePosition, "sheet.rename", "sheet.left", "sheet.right", "", "sheet.add", "sheet.delete")
}

func (t *sheetTab) Dragged(e *fyne.DragEvent) { t.moved += e.Dragged.DX }

// DragEnd moves the sheet past every neighbour whose middle the pointer has
// passed.
func (t *sheetTab) DragEnd() {
	by, left := 0, t.moved
	t.moved = 0
	at := -1
	for i, other := range t.tabs.all {
		if other == t {
			at = i
		}
	}
	for left > 0 && at+by+1 < len(t.tabs.all) {
		w := t.tabs.all[at+by+1].Size().Width
		if left < w/2 {
			break
		}
		left -= w
		by++
	}
	for left < 0 && at+by-1 >= 0 {
		w := t.tabs.all[at+by-1].Size().Width
		if -left < w/2 {
			break
		}
		left += w
		by--
	}
	if by != 0 {
		t.tabs.ed.show(t.id)
		t.tabs.ed.moveSheet(by)
	}
}
