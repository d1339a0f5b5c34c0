package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// The ways to count over a sheet.
const (
	byRows    = "Row by row, left to right"
	byColumns = "Column by column, top to bottom"
)

// renumbering is the form that numbers designations anew. The list below shows
// what would become of each.
type renumbering struct {
	ed      *Editor
	box     *box
	scope   *pick
	letters *pick
	order   *pick
	prefix  *entry
	start   *entry
	list    *rows
	renames []string
	note    *widget.Label
	groups  []lettered // what can be renumbered in the scope
}

// lettered is the parts and wires of a scope whose designations have the same
// letters.
type lettered struct {
	stem string
	keys []schematic.Key
}

func (l lettered) title() string { return l.stem + "  (" + schematic.Tally(l.keys) + ")" }

func (ed *Editor) renumberDialog() {
	r := &renumbering{ed: ed, note: complaint(), prefix: newEntry(nil), start: newEntry(nil)}
	r.list = newRows(ed.typedKey, func() int { return len(r.renames) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(r.renames[i]) })
	r.list.OnSelected = func(widget.ListItemID) { r.list.UnselectAll() } // it only shows
	r.scope = newPick(ed.typedKey, ed.scopes(), func(string) { r.collect() })
	r.letters = newPick(ed.typedKey, nil, func(string) { r.chosen() })
	r.order = newPick(ed.typedKey, []string{byRows, byColumns}, func(string) { r.preview() })
	r.prefix.changed = func(string) { r.preview() }
	r.start.changed = func(string) { r.preview() }
	form := container.NewVBox(row("Of", r.scope), row("Designations", r.letters), row("Count", r.order), row("Letters", r.prefix), row("First number", r.start), r.note)
	r.box = &box{title: "Renumber", size: fyne.NewSize(520, 600), first: r.prefix, content: container.NewBorder(container.New(padded{4, 4}, form), nil, nil, nil, r.list)}
	r.box.answers = []answer{{text: "Renumber", main: true, stays: true, deed: r.apply}, {text: "Go back"}}
	r.box.field(r.prefix)
	r.box.field(r.start)
	r.order.Selected = byRows
	r.start.SetText("1")
	// One thing selected means all of its letters; several mean just those.
	first := onSheet
	if len(ed.sess.Selection()) > 1 {
		first = inSelection
	}
	r.scope.SetSelected(first)
	ed.openBox(r.box)
}

// collect sorts what lies in the scope by the letters of its designations.
func (r *renumbering) collect() {
	by := map[string]int{}
	r.groups = nil
	for _, k := range r.ed.within(r.scope.Selected) {
		if k.Type != schematic.TypePart && k.Type != schematic.TypeWire {
			continue
		}
		stem := edit.Stem(schematic.NameOf(r.ed.doc().Get(k)))
		i, ok := by[stem]
		if !ok {
			i, by[stem] = len(r.groups), len(r.groups)
			r.groups = append(r.groups, lettered{stem: stem})
		}
		r.groups[i].keys = append(r.groups[i].keys, k)
	}
	slices.SortFunc(r.groups, func(a, b lettered) int { return schematic.CompareNames(a.stem, b.stem) })
	var titles []string
	pick := ""
	for _, g := range r.groups {
		titles = append(titles, g.title())
		if sel := r.ed.sess.Selection(); len(sel) > 0 && slices.Contains(g.keys, sel[0]) {
			pick = g.title()
		}
	}
	if pick == "" {
		// With nothing to go by, the letters most bear are meant.
		most := 0
		for i, g := range r.groups {
			if len(g.keys) > most {
				most, pick = len(g.keys), titles[i]
			}
		}
	}
	r.letters.SetOptions(titles)
	r.letters.ClearSelected()
	if pick != "" {
		r.letters.SetSelected(pick)
	}
}

// chosen follows other letters.
func (r *renumbering) chosen() {
	r.prefix.SetText(r.group().stem)
	r.preview()
}

func (r *renumbering) group() lettered {
	for _, g := range r.groups {
		if g.title() == r.letters.Selected {
			return g
		}
	}
	return lettered{}
}

// numbering reads the form.
func (r *renumbering) numbering() (edit.Numbering, error) {
	n, err := strconv.Atoi(strings.TrimSpace(r.start.Text))
	if err != nil {
		return edit.Numbering{}, fmt.Errorf("%q is no number to start from: write a whole number such as 1", r.start.Text)
	}
	return edit.Numbering{Prefix: strings.TrimSpace(r.prefix.Text), Start: n, Columns: r.order.Selected == byColumns}, nil
}

// preview lists what would become of each designation.
func (r *renumbering) preview() {
	r.renames = nil
	n, err := r.numbering()
	if err == nil {
		tx := edit.Begin(r.ed.doc(), nil)
		if err = edit.Renumber(tx, r.group().keys, n); err == nil {
			for _, k := range r.group().keys {
				is, was := schematic.NameOf(tx.Doc().Get(k)), schematic.NameOf(r.ed.doc().Get(k))
				if is == was {
					is = "stays"
				}
				r.renames = append(r.renames, was+"  →  "+is)
			}
		}
	}
	r.note.Hide()
	if err != nil && len(r.groups) > 0 {
		r.note.SetText(sentence(err.Error()))
		r.note.Show()
	}
	r.list.Refresh()
	r.box.fit()
}

func (r *renumbering) apply() {
	n, err := r.numbering()
	keys, before := r.group().keys, r.ed.doc()
	if err == nil {
		err = r.ed.try("renumber "+schematic.Tally(keys), func(tx *edit.Tx) error { return edit.Renumber(tx, keys, n) })
	}
	if err != nil {
		r.box.complain(r.note, err)
		return
	}
	r.box.close()
	if r.ed.doc() == before {
		r.ed.status.tell("nothing was renumbered: all have these designations already")
		return
	}
	r.ed.status.tell("renumbered " + schematic.Tally(keys))
}
