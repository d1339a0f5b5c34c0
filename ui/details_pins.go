package ui

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
)

// pinControls edit the pins of a part that brings its own: their number, and
// for each its name, role, title and values.
func (d *details) pinControls(e partEdits, k *schematic.Kind) []control {
	count := newField("How many",
		func() string { return strconv.Itoa(catalog.Counted(k, e.part())) },
		func(s string) error {
			n, err := unit.Parse(unit.Count, s)
			if err != nil {
				return err
			}
			if n < 1 || n > catalog.MaxPins {
				return fmt.Errorf("%g pins: write a number from 1 to %d", n, catalog.MaxPins)
			}
			return e.set("number of pins", func(p *schematic.Part) { p.Pins = catalog.WithPins(k, p, int(n)).Pins })
		})
	cs := []control{heading("Pins"), count}
	for _, pin := range e.part().Pins {
		cs = append(cs, d.pinLine(e, k, pin.Name))
		if r, ok := k.Role(pin.Role); ok {
			for _, prm := range r.Params {
				cs = append(cs, d.pinParam(e, pin.Name, prm))
			}
		}
	}
	return cs
}

// pinLine is one pin: name, role, what it is for, and a way to remove it.
type pinLine struct {
	box   fyne.CanvasObject
	note  *widget.Label
	wires *widget.Label
	inner []interface{ load() }
}

func (l *pinLine) object() fyne.CanvasObject { return l.box }

func (l *pinLine) load() {
	for _, c := range l.inner {
		c.load()
	}
}

func (l *pinLine) say(err error) {
	if err == nil {
		l.note.Hide()
		return
	}
	l.note.SetText(err.Error())
	l.note.Show()
}

// bare is a text field without a name of its own.
type bare struct {
	*entry
	get func() string
}

func (b bare) load() { b.entry.load(b.get()) }

// pinLine shows and edits one pin of a part.
func (d *details) pinLine(e partEdits, k *schematic.Kind, pin string) control {
	l := &pinLine{note: widget.NewLabel(""), wires: widget.NewLabel("")}
	l.note.Wrapping, l.note.Importance, l.note.SizeName = fyne.TextWrapWord, widget.DangerImportance, theme.SizeNameCaptionText
	l.note.Hide()
	at := func() schematic.Pin {
		for _, p := range e.part().Pins {
			if p.Name == pin {
				return p
			}
		}
		return schematic.Pin{}
	}
	change := func(what string, f func(*schematic.Pin)) error {
		return e.set(what+" of pin "+pin, func(p *schematic.Part) {
			for i := range p.Pins {
				if p.Pins[i].Name == pin {
					f(&p.Pins[i])
				}
			}
		})
	}
	name := bare{newEntry(nil), func() string { return pin }}
	name.commit = func(s string) {
		l.say(d.ed.try("rename pin "+pin+" of "+e.part().Name, func(tx *edit.Tx) error { return edit.RenamePin(tx, e.id, pin, s) }))
	}
	title := bare{newEntry(nil), func() string { return at().Title }}
	title.SetPlaceHolder("what it is for")
	title.commit = func(s string) {
		l.say(change("title", func(p *schematic.Pin) { p.Title = strings.TrimSpace(s) }))
	}
	var titles []string
	for _, r := range k.Roles {
		titles = append(titles, roleTitle(r))
	}
	role := newPick(d.ed.typedKey, titles, nil)
	role.Selected = roleTitleOf(k, at().Role)
	role.OnChanged = func(s string) {
		for _, r := range k.Roles {
			if roleTitle(r) == s && r.Name != at().Role {
				l.say(change("role", func(p *schematic.Pin) { p.Role = r.Name }))
			}
		}
	}
	drop := newButton(d.ed.tips, "", "trash", "Remove pin "+pin, func() {
		l.say(e.set("pin "+pin+" gone", func(p *schematic.Part) {
			p.Pins = slices.DeleteFunc(p.Pins, func(q schematic.Pin) bool { return q.Name == pin })
		}))
	})
	drop.stress(false)
	l.inner = append(l.inner, name, title)
	l.wires.SizeName, l.wires.Importance = theme.SizeNameCaptionText, widget.LowImportance
	l.wires.Wrapping = fyne.TextWrapWord
	l.inner = append(l.inner, loader(func() { l.wires.SetText(d.pinWires(e.id, pin)) }))
	first := container.New(columns{58, 0, 30}, name.entry, title.entry, drop)
	rows := []fyne.CanvasObject{gap(3), first}
	if len(k.Roles) > 1 {
		rows = append(rows, container.New(columns{58, 0}, widget.NewLabel(""), role))
	}
	// Wires have the whole width: their numbers and colours must not be cut.
	l.box = container.New(stackTight{}, append(rows, container.New(stackTight{}, l.wires), l.note)...)
	l.load()
	return l
}

// loader makes a function a thing that loads.
type loader func()

func (f loader) load() { f() }

func roleTitle(r schematic.Role) string {
	if r.Title != "" {
		return r.Title
	}
	return r.Name
}

func roleTitleOf(k *schematic.Kind, name string) string {
	if r, ok := k.Role(name); ok {
		return roleTitle(r)
	}
	return name
}

// pinParam edits one value of a pin's role.
func (d *details) pinParam(e partEdits, pin string, prm schematic.Param) control {
	own := prm
	own.Source = "" // said once would be enough; a row for every pin is too much
	c := d.paramField(own,
		func() (float64, bool) {
			for _, p := range e.part().Pins {
				if p.Name == pin {
					v, ok := p.Values[prm.Name]
					return v, ok
				}
			}
			return 0, false
		},
		func(n schematic.Num) error {
			return e.set(strings.ToLower(prm.Title)+" of pin "+pin, func(p *schematic.Part) {
				for i := range p.Pins {
					if p.Pins[i].Name == pin {
						p.Pins[i].Values = withValue(maps.Clone(p.Pins[i].Values), prm.Name, n)
					}
				}
			})
		})
	return indented{c, container.New(padded{0, 0}, container.NewBorder(nil, nil, widthOf(16), nil, c.object()))}
}

type indented struct {
	control
	box fyne.CanvasObject
}

func (i indented) object() fyne.CanvasObject { return i.box }

func widthOf(w float32) fyne.CanvasObject {
	g := gap(1)
	return container.NewGridWrap(fyne.NewSize(w, 1), g)
}
