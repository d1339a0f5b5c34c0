package ui

import (
	"cmp"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draft"
	"loomwright/schematic/edit"
)

// kindForm makes or changes a part kind. What it will look like on the sheet,
// and what is still wrong with it, is shown while it is worked on.
type kindForm struct {
	ed          *Editor
	draft       *draft.Draft
	was         *schematic.Kind // as it began
	box         *box
	pad         *symbolPad
	tabs        *container.AppTabs
	strokes     *grid
	pins        *grid
	fresh       int // line of a stroke added and not drawn yet, -1 for none
	trouble     *widget.Label
	note        *widget.Label
	follow      string // what becomes of the parts there are
	keep        *ticked
	layout      *pick
	picture     *pick  // what is shown and drawn, where there are several
	piece       *entry // the name of the piece in hand
	named       *fyne.Container
	rowOfPieces fyne.CanvasObject
	ownPins     *ticked
	grids       []*grid
	fields      []*entry
	quiet       bool
}

// kindForm opens the form on a draft.
func (ed *Editor) kindForm(title string, d *draft.Draft) *kindForm {
	f := &kindForm{ed: ed, draft: d, was: d.Kind(), note: complaint(), pad: newSymbolPad(ed), fresh: -1}
	f.trouble = widget.NewLabel("")
	f.trouble.Wrapping = fyne.TextWrapWord
	first, general := f.general()
	pins := f.list(d.Pins(), nil)
	f.pins = f.grids[len(f.grids)-1]
	values := f.list(d.Values(), nil)
	elements := f.list(d.Elements(), nil)
	roles := f.list(d.Roles(), nil)
	f.tabs = container.NewAppTabs(
		container.NewTabItem("General", newPage(container.New(clearOfBar{}, general))),
		container.NewTabItem("Pins", pins),
		container.NewTabItem("Symbol", f.symbol()),
		container.NewTabItem("Elements", elements),
		container.NewTabItem("Values", values),
		container.NewTabItem("Roles", roles),
	)
	f.tabs.OnSelected = func(*container.TabItem) { f.changed() }
	f.keep = newTicked(ed.typedKey, "Keep it in my own library too, for other drawings", nil)
	f.keep.Checked = ed.lib.Lent(f.was.Name)
	if n := len(edit.PartsOfKind(ed.doc(), f.was.Name)); n > 0 && (f.was.ID != schematic.ID{}) {
		f.follow = "Nothing is wrong with it that can be told here. " + map[bool]string{true: "The part of this kind follows.", false: fmt.Sprintf("The %d parts of this kind follow.", n)}[n == 1]
	}
	if ed.store.folder == "" {
		f.keep.Checked = false
		f.keep.Disable()
	}
	side := container.NewBorder(container.NewVBox(f.picture, container.NewCenter(f.pad), f.pad.place), nil, nil, nil, container.NewVScroll(f.trouble))
	split := container.NewHSplit(f.tabs, side)
	split.Offset = 0.72
	f.box = &box{title: title, size: fyne.NewSize(1180, 700), first: first, content: container.NewBorder(nil, container.New(stackTight{}, f.keep, f.note), nil, nil, split)}
	f.box.answers = []answer{{text: "Use it", main: true, stays: true, deed: f.take}, {text: "Go back"}}
	f.box.ready = func() { first.TypedShortcut(&fyne.ShortcutSelectAll{}) }
	for _, g := range f.grids {
		g.escape, g.done = f.box.escape, f.box.enter
	}
	for _, e := range f.fields {
		f.box.field(e)
	}
	f.drawing()
	f.changed()
	ed.openBox(f.box)
	return f
}

// changed shows the kind as it is now.
func (f *kindForm) changed() {
	f.quiet = true
	for _, l := range layouts {
		if l.form == f.draft.Form() {
			f.layout.SetSelected(l.title)
		}
	}
	f.ownPins.SetChecked(f.draft.Kind().OwnPins)
	f.showPictures()
	f.quiet = false
	for _, g := range f.grids {
		g.Refresh()
	}
	var lines []string
	for _, p := range f.draft.Problems() {
		text := sentence(p.Text)
		if p.Minor {
			text = "Better: " + p.Text
		}
		lines = append(lines, text)
	}
	f.trouble.Importance = widget.DangerImportance
	if f.draft.Sound() == nil {
		f.trouble.Importance = widget.MediumImportance
	}
	if len(lines) == 0 {
		lines = []string{cmp.Or(f.follow, "Nothing is wrong with it that can be told here.")}
	}
	f.trouble.SetText(strings.Join(lines, "\n"))
	f.showHand()
}

func (f *kindForm) complain(err error) {
	if err == nil {
		f.note.Hide()
		return
	}
	f.box.complain(f.note, err)
}

// take puts the kind into the drawing, and where asked into the user's library.
func (f *kindForm) take() {
	for _, g := range f.grids {
		if g.editor.Visible() && !g.commit() {
			return
		}
	}
	if err := f.draft.Sound(); err != nil {
		f.complain(err)
		return
	}
	k := f.draft.Kind()
	if f.keep.Checked && k.OtherHalf != "" && f.ed.lib.Kind(k.OtherHalf) == nil {
		f.complain(fmt.Errorf("its other half is in this drawing only: keep that in your own library first, or choose another one"))
		return
	}
	fresh := f.was.Name == "" || f.ed.doc().Kind(f.was.Name) == nil
	// A kind of the library that the drawing does not use stays out of it.
	apart := k.ID == schematic.ID{} && f.ed.lib.Lent(f.was.Name) && f.keep.Checked
	set := func(tx *edit.Tx) error {
		return edit.SetKind(tx, k, edit.Renamed{Pins: f.draft.Renamed(), Pieces: f.draft.RenamedPieces()})
	}
	if !apart {
		if err := set(edit.Begin(f.ed.doc(), nil)); err != nil { // before anything is written to a file
			f.complain(err)
			return
		}
	}
	if f.keep.Checked {
		was := ""
		if f.ed.lib.Lent(f.was.Name) {
			was = f.was.Name
		}
		if err := f.ed.keepKind(k, was); err != nil {
			f.complain(err)
			return
		}
	}
	if !apart {
		if err := f.ed.try("set part kind "+kindTitle(k), set); err != nil {
			f.complain(err)
			return
		}
	}
	f.box.close()
	f.ed.tray.refresh()
	if fresh {
		f.ed.takePart(k.Name)
	}
	f.ed.chosen()
}
