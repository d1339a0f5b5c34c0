package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

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
