package ui

import (
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draft"
)

// general is the page of what is no list.
func (f *kindForm) general() (first *entry, page fyne.CanvasObject) {
	k := f.draft.Kind()
	text := func(hint, now string, set func(*schematic.Kind, string)) *entry {
		e := newEntry(nil)
		e.SetPlaceHolder(hint)
		e.SetText(now)
		e.changed = func(s string) {
			f.draft.Edit(func(k *schematic.Kind) { set(k, strings.TrimSpace(s)) })
			f.changed()
		}
		f.fields = append(f.fields, e)
		return e
	}
	title := text("Work lamp, LED", k.Title, func(k *schematic.Kind, s string) { k.Title = s })
	group := text("", k.Group, func(k *schematic.Kind, s string) { k.Group = s })
	letters := text("K", k.Prefix, func(k *schematic.Kind, s string) { k.Prefix = strings.ToUpper(s) })
	words := text("more words to find it by", k.Words, func(k *schematic.Kind, s string) { k.Words = s })
	help := text("what it is and how it is wired", k.Help, func(k *schematic.Kind, s string) { k.Help = s })
	positions := text("off, on", strings.Join(k.Positions, ", "), func(k *schematic.Kind, s string) {
		k.Positions = nil
		for _, p := range strings.Split(s, ",") {
			if p = strings.TrimSpace(p); p != "" {
				k.Positions = append(k.Positions, p)
			}
		}
	})
	passes := newTicked(f.ed.typedKey, "Only carries current on: a trace runs through it", func(on bool) {
		f.draft.Edit(func(k *schematic.Kind) { k.Passes = on })
		f.changed()
	})
	passes.Checked = k.Passes
	f.ownPins = newTicked(f.ed.typedKey, "Each part brings its own pins, as many as it has, with the roles of the kind", func(on bool) {
		if f.quiet {
			return
		}
		f.complain(f.draft.SetOwnPins(on))
		f.changed()
	})
	const none = "none"
	choice := func(options []string, now string, set func(*schematic.Kind, string)) *pick {
		p := newPick(f.ed.typedKey, append([]string{none}, options...), nil)
		p.Selected = none
		if now != "" {
			p.Selected = now
		}
		p.OnChanged = func(s string) {
			if s == none {
				s = ""
			}
			f.draft.Edit(func(k *schematic.Kind) { set(k, s) })
			f.changed()
		}
		return p
	}
	duty := choice([]string{"continuous", "intermittent"}, k.Duty, func(k *schematic.Kind, s string) { k.Duty = s })
	ground := choice([]string{"body", "engine", "frame"}, k.Ground, func(k *schematic.Kind, s string) { k.Ground = s })
	family := choice(with(catalog.Families(), k.Family), k.Family, func(k *schematic.Kind, s string) { k.Family = s })
	half := f.otherHalf(k)
	return title, container.NewVBox(gap(4),
		row("Title", title), row("Group in the tray", group), row("Letters", letters), remark("The letters of its designations; the number follows by itself.").CanvasObject,
		row("Words", words), row("Help", help), row("Positions", positions), remark("Of a switch, the first is where it rests.").CanvasObject,
		row("Duty of its coil", duty), row("Ground metal", ground),
		row("Fuse family", family), remark("Of a fuse, for the rules about ratings, breaking capacity and time.").CanvasObject,
		row("Other half", half), remark("The connector that is placed with it, plugged.").CanvasObject, passes, f.ownPins)
}

// with returns a list that holds a word too which a file may say.
func with(list []string, word string) []string {
	if word != "" && !slices.Contains(list, word) {
		list = append(list, word)
	}
	return list
}

// otherHalf chooses the kind that is placed with this one: connectors, by title.
func (f *kindForm) otherHalf(k *schematic.Kind) *pick {
	const none = "none"
	byTitle := map[string]string{}
	add := func(o *schematic.Kind) {
		if o != nil && (o.OwnPins && o.Passes && o.Name != k.Name || o.Name == k.OtherHalf) {
			byTitle[kindTitle(o)] = o.Name
		}
	}
	for _, name := range f.ed.doc().Library().Names() {
		add(f.ed.doc().Library().Kind(name))
	}
	for o := range f.ed.doc().OwnKinds() {
		add(o)
	}
	now := none
	for title, name := range byTitle {
		if name == k.OtherHalf {
			now = title
		}
	}
	if now == none && k.OtherHalf != "" {
		now = k.OtherHalf // nobody defines it here
		byTitle[now] = k.OtherHalf
	}
	p := newPick(f.ed.typedKey, append([]string{none}, slices.Sorted(maps.Keys(byTitle))...), nil)
	p.Selected = now
	p.OnChanged = func(title string) {
		f.draft.Edit(func(k *schematic.Kind) { k.OtherHalf = byTitle[title] })
		f.changed()
	}
	return p
}

// layouts are the ways pins stand in a symbol, as the form names them.
var layouts = []struct{ form, title string }{
	{"box", "along the sides of a box"},
	{"rows", "as a column of cavities"},
	{"bar", "along a bar"},
	{"", "where each of them says, with strokes"},
}

// symbol is the page of the symbol: a form that lays pins out, or strokes.
func (f *kindForm) symbol() fyne.CanvasObject {
	var titles []string
	for _, l := range layouts {
		titles = append(titles, l.title)
	}
	f.layout = newPick(f.ed.typedKey, titles, nil)
	f.layout.OnChanged = func(s string) {
		if f.quiet {
			return
		}
		for _, l := range layouts {
			if l.title == s {
				f.complain(f.draft.SetForm(l.form))
			}
		}
		f.changed()
	}
	add := container.NewHBox()
	for _, s := range draft.Shapes() {
		name := map[string]string{"rect": "rectangle"}[s]
		if name == "" {
			name = s
		}
		b := newButton(f.ed.tips, sentence(name), "", "Add one to the symbol", func() {
			f.draft.AddStroke(s)
			f.fresh = f.draft.Strokes().Len() - 1
			f.changed()
			f.strokes.move(f.fresh-f.strokes.row, 1-f.strokes.col, false)
			f.ed.win.Canvas().Focus(f.strokes)
		})
		b.Importance = widget.LowImportance
		add.Add(b)
	}
	page := f.list(f.draft.Strokes(), container.NewVBox(row("Its pins stand", f.layout), f.pieces(), container.NewBorder(nil, nil, widget.NewLabel("Add"), nil, add),
		remark("Draw the stroke in hand in the picture: drag a point, or draw it new; Shift goes in finer steps.").CanvasObject))
	f.strokes = f.grids[len(f.grids)-1]
	return page
}

// list is a page with one of the lists of the kind.
func (f *kindForm) list(l *draft.List, above fyne.CanvasObject) fyne.CanvasObject {
	m := &draftRows{form: f, list: l}
	g := newGrid(f.ed, m)
	m.grid = g
	f.grids = append(f.grids, g)
	button := func(text, tip string, deed func()) fyne.CanvasObject {
		b := newButton(f.ed.tips, text, "", tip, func() { deed(); f.changed() })
		b.Importance = widget.LowImportance
		return b
	}
	bar := container.NewHBox(
		button("Move up", "Move the line in hand up", func() { m.move(-1) }),
		button("Move down", "Move the line in hand down", func() { m.move(1) }),
		button("Remove", "Take the lines selected out", m.remove))
	if above == nil {
		bar.Objects = append([]fyne.CanvasObject{button("Add a line", "Add a line at the end", func() {
			l.Add()
			f.changed()
			g.move(l.Len()-1-g.row, -g.col, false)
			f.ed.win.Canvas().Focus(g)
		})}, bar.Objects...)
		above = bar
	} else {
		above = container.NewVBox(above, bar)
	}
	return container.NewBorder(above, nil, nil, nil, g.box)
}
