package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// details is the panel that shows and edits what is selected: one part, wire or
// note, several things at once, or with nothing selected the sheet and the
// document.
type details struct {
	ed       *Editor
	title    *widget.Label
	sub      *widget.Label
	body     *fyne.Container
	scroll   *container.Scroll
	controls []control
	shape    string // what the page was built for
	box      fyne.CanvasObject
}

func newDetails(ed *Editor) *details {
	d := &details{ed: ed, title: widget.NewLabel(""), sub: widget.NewLabel(""), body: container.NewVBox()}
	d.title.TextStyle.Bold = true
	d.title.SizeName = theme.SizeNameSubHeadingText
	d.title.Wrapping = fyne.TextWrapWord
	d.sub.Importance = widget.LowImportance
	d.sub.Wrapping = fyne.TextWrapWord
	d.scroll = container.NewVScroll(container.New(padded{6, 2}, d.body))
	head := container.New(padded{6, 2}, container.New(stackTight{}, d.title, d.sub))
	d.box = container.NewBorder(head, nil, nil, nil, d.scroll)
	d.refresh()
	return d
}

func (d *details) object() fyne.CanvasObject { return d.box }

// refresh shows the present selection. While the same thing stays selected and
// has the same fields, only the values are loaded, so that the keyboard stays
// where it is.
func (d *details) refresh() {
	p := d.page()
	if p.shape == d.shape {
		d.title.SetText(p.title)
		d.sub.SetText(p.sub)
		for _, c := range d.controls {
			c.load()
		}
		return
	}
	d.shape = p.shape
	d.title.SetText(p.title)
	d.sub.SetText(p.sub)
	d.controls = p.build()
	// All at once: adding to a container lays it out each time.
	d.body.Objects = nil
	for _, c := range d.controls {
		d.body.Objects = append(d.body.Objects, c.object())
	}
	d.body.Refresh()
	d.scroll.ScrollToTop()
	d.watch(d.body)
}

// watch asks everything in a box that can have the keyboard to tell when it
// gets it.
func (d *details) watch(o fyne.CanvasObject) {
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			d.watch(inner)
		}
	case interface{ onArrival(func(fyne.CanvasObject)) }:
		o.onArrival(d.bring)
	}
}

// bring scrolls a field into sight, with room for what is said below it.
func (d *details) bring(o fyne.CanvasObject) {
	const room = 24
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y - fyne.CurrentApp().Driver().AbsolutePositionForObject(d.scroll).Y
	by := float32(0)
	if below := at + o.Size().Height + room - d.scroll.Size().Height; below > 0 {
		by = below
	}
	if above := at - by - room; above < 0 {
		by += above
	}
	if by != 0 {
		d.scroll.ScrollToOffset(d.scroll.Offset.AddXY(0, by))
	}
}

// takeKeyboard puts the keyboard into the first field; typing replaces what is
// there.
func (d *details) takeKeyboard() {
	for _, c := range d.controls {
		if f, ok := c.(*field); ok {
			d.ed.win.Canvas().Focus(f.input)
			f.input.TypedShortcut(&fyne.ShortcutSelectAll{})
			return
		}
	}
}

// page is what the panel shows for a selection. Shape names everything that
// decides which fields there are.
type page struct {
	shape, title, sub string
	build             func() []control
}

func (d *details) page() page {
	doc, sel := d.ed.doc(), d.ed.sess.Selection()
	switch len(sel) {
	case 0:
		return d.documentPage()
	case 1:
		switch it := doc.Get(sel[0]).(type) {
		case *schematic.Part:
			return d.partPage(it)
		case *schematic.Wire:
			return d.wirePage(it)
		case *schematic.Note:
			return d.notePage(it)
		}
	}
	return d.manyPage(sel)
}

// try makes an edit and returns what stood in its way, in the words of the
// edit alone: the field it is shown at says the rest.
func (ed *Editor) try(label string, f func(*edit.Tx) error) error {
	var cause error
	err := ed.sess.Do(label, func(tx *edit.Tx) error {
		cause = f(tx)
		return cause
	})
	if cause != nil {
		return cause
	}
	return err
}

// system returns the units that lengths and temperatures are shown in.
func (ed *Editor) system() unit.System {
	if ed.store.Imperial {
		return unit.Imperial
	}
	return unit.SI
}

// shows returns how lengths, temperatures and wire sizes are shown.
func (ed *Editor) shows() unit.Show {
	w := unit.Show{System: ed.system()}
	switch ed.store.Sizes {
	case sizesMM2:
		w.Sizes = unit.Metric
	case sizesAWG:
		w.Sizes = unit.AWG
	}
	return w
}

// quantity prints a number as a field shows it: with all its digits.
func (ed *Editor) quantity(q unit.Quantity, n schematic.Num) string {
	v, ok := n.Get()
	if !ok {
		return ""
	}
	if ed.store.Imperial && (q == unit.Length || q == unit.Temp) {
		return unit.Format(q, v, unit.Imperial)
	}
	return unit.Exact(q, v)
}

// numField is a field for a number that may be unknown; empty is unknown.
func (d *details) numField(name string, q unit.Quantity, get func() schematic.Num, set func(schematic.Num) error) *field {
	return newField(name,
		func() string { return d.ed.quantity(q, get()) },
		func(s string) error {
			if strings.TrimSpace(s) == "" {
				return set(schematic.Num{})
			}
			v, err := unit.Parse(q, s)
			if err != nil {
				return err
			}
			return set(schematic.Some(v))
		}).hint("not known")
}

// paramField edits one parameter; empty means the default, which the field
// names together with where it comes from.
func (d *details) paramField(p schematic.Param, get func() (float64, bool), set func(schematic.Num) error) control {
	q := p.Quantity()
	f := d.numField(sentence(p.Title), q, func() schematic.Num {
		v, ok := get()
		if !ok {
			return schematic.Num{}
		}
		return schematic.Some(v)
	}, set)
	if def, ok := p.Default.Get(); ok {
		f.hint(unit.Format(q, def, d.ed.system()) + " by default")
		if p.Source != "" {
			return withRemark(f, "Default: "+p.Source)
		}
	} else {
		f.hint(otherwise(p))
	}
	return f
}

// otherwise says what a parameter without a default is where nobody gives it.
func otherwise(p schematic.Param) string {
	if p.Source != "" {
		return p.Source
	}
	return "not known"
}

// remarked is a control with a faint line below it.
type remarked struct {
	control
	box fyne.CanvasObject
}

func withRemark(c control, text string) control {
	return remarked{c, container.New(stackTight{}, c.object(), container.New(padded{4, 0}, remark(text).CanvasObject))}
}

func (r remarked) object() fyne.CanvasObject { return r.box }

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

// buildChoice is the line for how far the real thing has come.
func (d *details) buildChoice(get func() schematic.Build, set func(schematic.Build) error) control {
	return d.newChoice("Built so far",
		func() []string {
			var all []string
			for _, b := range schematic.Builds() {
				all = append(all, string(b))
			}
			return all
		},
		func() string {
			if b := get(); b != "" {
				return string(b)
			}
			return string(schematic.Planned)
		},
		func(s string) {
			b := schematic.Build(s)
			if b == schematic.Planned {
				b = ""
			}
			d.ed.report(set(b))
		})
}

// lockTick holds a part, note or wire in place.
func (d *details) lockTick(k schematic.Key) control {
	return d.newTick("Locked in place", func() bool { return edit.Locked(d.ed.doc(), k) }, func(on bool) {
		verb := map[bool]string{true: "lock ", false: "unlock "}[on]
		d.ed.do(verb+d.ed.what([]schematic.Key{k}), func(tx *edit.Tx) error { return edit.SetLocked(tx, []schematic.Key{k}, on) })
	})
}

// noLoom is what the loom choice shows for none.
const noLoom = "none"

// loomChoice assigns a part or wire to a sub-harness.
func (d *details) loomChoice(get func() schematic.ID, set func(schematic.ID) error) control {
	return d.loomLine(func() string { return d.loomName(get()) }, set)
}

func (d *details) loomName(id schematic.ID) string {
	if l := d.ed.doc().Loom(id); l != nil {
		return l.Name
	}
	return noLoom
}

func (d *details) loomLine(get func() string, set func(schematic.ID) error) control {
	return d.newChoice("Loom",
		func() []string {
			names := []string{noLoom}
			for _, l := range looms(d.ed.doc()) {
				names = append(names, l.Name)
			}
			return names
		},
		get,
		func(s string) {
			var id schematic.ID
			for _, l := range looms(d.ed.doc()) {
				if l.Name == s {
					id = l.ID
				}
			}
			d.ed.report(set(id))
		})
}

// looms returns the looms in the order of their names.
func looms(doc *schematic.Doc) []*schematic.Loom {
	return sortedByName(doc.Looms())
}

// linksField edits links as lines of "title | address".
func (d *details) linksField(get func() []schematic.Link, set func([]schematic.Link) error) control {
	return newLongField("Links",
		func() string {
			var lines []string
			for _, l := range get() {
				s := l.Target
				if l.Title != "" {
					s = l.Title + " | " + l.Target
				}
				lines = append(lines, s)
			}
			return strings.Join(lines, "\n")
		},
		func(s string) error {
			had := get()
			var links []schematic.Link
			for _, line := range strings.Split(s, "\n") {
				if line = strings.TrimSpace(line); line == "" {
					continue
				}
				l := schematic.Link{Target: line}
				if title, target, two := strings.Cut(line, "|"); two {
					l.Title, l.Target = strings.TrimSpace(title), strings.TrimSpace(target)
				}
				if l.Target == "" {
					return fmt.Errorf("%q has no address: write title | address, or the address alone", line)
				}
				for _, h := range had { // keep fields this version does not know
					if h.Target == l.Target {
						l.Extra = h.Extra
					}
				}
				links = append(links, l)
			}
			return set(links)
		}).hint("title | file or address, one a line")
}
