package ui

import (
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// mixed is shown where the selected things differ.
const mixed = "different"

// manyPage sums a selection up and edits what its wires, parts and notes share.
func (d *details) manyPage(sel []schematic.Key) page {
	wires, parts, notes := d.manyWires(), d.manyParts(), d.manyNotes()
	var shape strings.Builder
	shape.WriteString("many ")
	for _, k := range sel {
		shape.WriteByte(byte(k.Type))
		shape.Write(k.ID[:])
		if p := d.ed.doc().Part(k.ID); p != nil {
			shape.WriteString(p.Kind)
		}
	}
	return page{shape: shape.String(), title: count(len(sel), "item"), sub: schematic.Tally(sel), build: func() []control {
		cs := []control{newFact("Selected", func() string { return nameList(d.namesOf(sel), 40) }),
			remark("A field shows what they have in common; what is written there goes for all.")}
		if n := len(wires.all()); n > 0 {
			cs = append(append(cs, heading("Of "+count(n, "wire"))), d.manyWireControls(wires)...)
		}
		if n := len(parts.all()); n > 0 {
			cs = append(append(cs, heading("Of "+count(n, "part"))), d.manyPartControls(parts)...)
		}
		if n := len(notes.all()); n > 0 {
			cs = append(append(cs, heading("Of "+count(n, "note"))), d.manyNoteControls(notes)...)
		}
		return cs
	}}
}

func (d *details) namesOf(keys []schematic.Key) []string {
	var names []string
	for _, k := range keys {
		if name := schematic.NameOf(d.ed.doc().Get(k)); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// many is what is selected of one sort, read and written as one thing.
type many[T schematic.Item] struct {
	d    *details
	noun string
	all  func() []T
	set  func(*edit.Tx, T, func(T)) error
}

// selectedOf returns what finds the selected things of one sort. Each field of a
// page asks for them, so they are looked up once for a document and a selection.
func selectedOf[T schematic.Item](ed *Editor) func() []T {
	var doc *schematic.Doc
	var sel []schematic.Key
	var all []T
	return func() []T {
		now := ed.sess.Selection()
		if doc == ed.doc() && slices.Equal(sel, now) {
			return all
		}
		doc, sel, all = ed.doc(), now, nil
		for _, k := range sel {
			if it, ok := doc.Get(k).(T); ok {
				all = append(all, it)
			}
		}
		return all
	}
}

func (d *details) manyWires() many[*schematic.Wire] {
	return many[*schematic.Wire]{d, "wire", selectedOf[*schematic.Wire](d.ed),
		func(tx *edit.Tx, w *schematic.Wire, f func(*schematic.Wire)) error { return edit.SetWire(tx, w.ID, f) }}
}

func (d *details) manyParts() many[*schematic.Part] {
	return many[*schematic.Part]{d, "part", selectedOf[*schematic.Part](d.ed),
		func(tx *edit.Tx, p *schematic.Part, f func(*schematic.Part)) error { return edit.SetPart(tx, p.ID, f) }}
}

func (d *details) manyNotes() many[*schematic.Note] {
	return many[*schematic.Note]{d, "note", selectedOf[*schematic.Note](d.ed),
		func(tx *edit.Tx, n *schematic.Note, f func(*schematic.Note)) error { return edit.SetNote(tx, n.ID, f) }}
}

// selectedWires returns the wires of the selection.
func (d *details) selectedWires() []*schematic.Wire { return selectedOf[*schematic.Wire](d.ed)() }

// unlike is the text of a thing that differs in itself, as a wire with two kinds
// of terminal: it has nothing in common even when it is alone.
const unlike = "\x00"

// same returns what all have in common; false when they differ.
func (m many[T]) same(text func(T) string) (string, bool) {
	var first string
	for i, it := range m.all() {
		switch s := text(it); {
		case s == unlike:
			return "", false
		case i == 0:
			first = s
		case s != first:
			return "", false
		}
	}
	return first, true
}

// change edits all in one step to undo.
func (m many[T]) change(what string, f func(T)) error {
	all := m.all()
	return m.d.ed.try("set "+what+" of "+count(len(all), m.noun), func(tx *edit.Tx) error {
		for _, it := range all {
			if err := m.set(tx, it, f); err != nil {
				return err
			}
		}
		return nil
	})
}

// hinted lets a field say in faint letters that they differ, or what an empty
// one means.
func (m many[T]) hinted(f *field, hint string, text func(T) string) *field {
	get := f.get
	var empty *button // only where they differ when the page is made
	if _, same := m.same(text); !same {
		empty = newButton(m.d.ed.tips, "", "clear", "Empty it for all of them; by key: Delete, then Enter", func() { f.commit("") })
		empty.stress(false)
		f.input.ActionItem = empty
	}
	f.get = func() string {
		_, same := m.same(text)
		f.input.mixed = !same
		if empty != nil {
			show(empty, !same)
		}
		if !same {
			f.hint(mixed)
			return ""
		}
		f.hint(hint)
		return get()
	}
	f.load()
	return f
}

// line is a text field for one property of all.
func (m many[T]) line(name, what, hint string, text func(T) string, read func(string) (func(T), error)) *field {
	f := newField(name, func() string { s, _ := m.same(text); return s }, func(s string) error {
		change, err := read(s)
		if err != nil {
			return err
		}
		return m.change(what, change)
	})
	return m.hinted(f, hint, text)
}

func (m many[T]) text(name, what, hint string, at func(T) *string) *field {
	return m.line(name, what, hint, func(it T) string { return *at(it) }, func(s string) (func(T), error) {
		return func(it T) { *at(it) = strings.TrimSpace(s) }, nil
	})
}

func (m many[T]) num(name, what, hint string, q unit.Quantity, get func(T) schematic.Num, set func(T, schematic.Num)) *field {
	return m.line(name, what, hint, func(it T) string { return m.d.ed.quantity(q, get(it)) }, func(s string) (func(T), error) {
		n := schematic.Num{}
		if strings.TrimSpace(s) != "" {
			v, err := unit.Parse(q, s)
			if err != nil {
				return nil, err
			}
			n = schematic.Some(v)
		}
		return func(it T) { set(it, n) }, nil
	})
}

// or returns what all have in common for a choice, or that they differ.
func (m many[T]) or(text func(T) string) string {
	if s, same := m.same(text); same {
		return s
	}
	return mixed
}

// manyWireControls are the fields of several wires at once.
func (d *details) manyWireControls(m many[*schematic.Wire]) []control {
	type wire = *schematic.Wire
	num := func(name, what, hint string, q unit.Quantity, at func(wire) *schematic.Num) control {
		return m.num(name, what, hint, q, func(w wire) schematic.Num { return *at(w) }, func(w wire, n schematic.Num) { *at(w) = n })
	}
	ends := func(name, what, hint string, at func(*schematic.End) *string) control {
		return m.line(name, what, hint, func(w wire) string {
			if a, b := *at(&w.A), *at(&w.B); a == b {
				return a
			}
			return unlike
		}, func(s string) (func(wire), error) {
			return func(w wire) { *at(&w.A), *at(&w.B) = strings.TrimSpace(s), strings.TrimSpace(s) }, nil
		})
	}
	sizeText := func(w wire) string {
		if !w.Size.Known() {
			return ""
		}
		return w.Size.String()
	}
	colorText := func(w wire) string { return w.Color.String() }
	color := d.colorField(func() schematic.Color {
		if _, same := m.same(colorText); same && len(m.all()) > 0 {
			return m.all()[0].Color
		}
		return schematic.Color{}
	}, func(c schematic.Color) error { return m.change("colour", func(w wire) { w.Color = c }) }).(*colorField)
	m.hinted(color.field, "BK, RD, BU/WH", colorText)
	insulationText := func(w wire) string { return w.Insulation }
	insulation := d.insulationField(func() string { s, _ := m.same(insulationText); return s },
		func(s string) error { return m.change("insulation", func(w wire) { w.Insulation = s }) }).(*field)
	m.hinted(insulation, "FLRY, TXL …", insulationText)
	return []control{
		m.line("Size", "size", "mm², AWG or SAE", sizeText, func(s string) (func(wire), error) {
			v, err := parseSize(s)
			return func(w wire) { w.Size = v }, err
		}),
		color,
		insulation,
		num("Temperature class", "temperature class", "by insulation", unit.Temp, func(w wire) *schematic.Num { return &w.TempC }),
		d.metalChoice(func() schematic.Metal {
			return schematic.Metal(m.or(func(w wire) string { return string(w.Metal) }))
		}, func(metal schematic.Metal) {
			d.ed.report(m.change("metal", func(w wire) { w.Metal = metal }))
		}),
		m.text("Circuit", "circuit", "what they are for", func(w wire) *string { return &w.Circuit }),
		num("Measured", "length", "not measured", unit.Length, func(w wire) *schematic.Num { return &w.LengthMM }),
		num("Slack", "slack", "none", unit.Length, func(w wire) *schematic.Num { return &w.SlackMM }),
		ends("Terminals", "terminals", "at both ends", func(e *schematic.End) *string { return &e.Terminal }),
		ends("Seals", "seals", "at both ends", func(e *schematic.End) *string { return &e.Seal }),
		d.loomLine(func() string { return m.or(func(w wire) string { return d.loomName(w.Loom) }) }, func(l schematic.ID) error {
			return m.change("loom", func(w wire) { w.Loom = l })
		}),
		d.buildChoice(func() schematic.Build { return schematic.Build(m.or(func(w wire) string { return string(w.Build) })) }, func(b schematic.Build) error {
			return m.change("build step", func(w wire) { w.Build = b })
		}),
		d.manyLock(func() string { return m.or(func(w wire) string { return yes(w.Locked) }) }, func(on bool) error {
			return m.change("lock", func(w wire) { w.Locked = on })
		}),
	}
}

// manyPartControls are the fields of several parts at once.
func (d *details) manyPartControls(m many[*schematic.Part]) []control {
	type part = *schematic.Part
	cs := []control{m.text("What they do", "purpose", "e.g. radiator fan, left", func(p part) *string { return &p.Label })}
	for _, prm := range d.commonParams(m.all()) {
		q := prm.Quantity()
		hint := otherwise(prm)
		if def, ok := prm.Default.Get(); ok {
			hint = unit.Format(q, def, d.ed.system()) + " by default"
		}
		cs = append(cs, m.num(sentence(prm.Title), strings.ToLower(prm.Title), hint, q, func(p part) schematic.Num {
			if v, ok := p.Values[prm.Name]; ok {
				return schematic.Some(v)
			}
			return schematic.Num{}
		}, func(p part, n schematic.Num) { p.Values = withValue(p.Values, prm.Name, n) }))
	}
	return append(cs,
		m.text("Part number", "part number", "as you order it", func(p part) *string { return &p.Number }),
		d.loomLine(func() string { return m.or(func(p part) string { return d.loomName(p.Loom) }) }, func(l schematic.ID) error {
			return m.change("loom", func(p part) { p.Loom = l })
		}),
		d.buildChoice(func() schematic.Build { return schematic.Build(m.or(func(p part) string { return string(p.Build) })) }, func(b schematic.Build) error {
			return m.change("build step", func(p part) { p.Build = b })
		}),
		d.manyLock(func() string { return m.or(func(p part) string { return yes(p.Locked) }) }, func(on bool) error {
			return m.change("lock", func(p part) { p.Locked = on })
		}))
}

// commonParams returns the parameters that all the parts have, as the first
// one's kind names them; a default holds only where all have the same.
func (d *details) commonParams(parts []*schematic.Part) []schematic.Param {
	var common []schematic.Param
	seen := map[string]bool{}
	for i, p := range parts {
		if i > 0 && seen[p.Kind] {
			continue
		}
		seen[p.Kind] = true
		k := d.ed.doc().KindOf(p)
		if k == nil {
			return nil
		}
		if i == 0 {
			common = append(common, k.Params...)
			continue
		}
		var both []schematic.Param
		for _, prm := range common {
			if other, ok := k.Param(prm.Name); ok && other.Unit == prm.Unit {
				if other.Default != prm.Default {
					prm.Default = schematic.Num{}
				}
				both = append(both, prm)
			}
		}
		common = both
	}
	return common
}

func (d *details) manyNoteControls(m many[*schematic.Note]) []control {
	type note = *schematic.Note
	length := func(name, what string, at func(note) int, set func(note, int)) control {
		return m.num(name, what, "none", unit.Length, func(n note) schematic.Num {
			if v := at(n); v > 0 {
				return schematic.Some(float64(v) / geom.PerMM)
			}
			return schematic.Num{}
		}, func(n note, v schematic.Num) { set(n, geom.FromMM(min(v.Or(0), geom.MaxCoord), 0).X) })
	}
	return []control{
		length("Letter height", "letter height", note.TextSize, func(n note, v int) { n.Size = v }),
		length("Width", "width", func(n note) int { return n.Width }, func(n note, v int) { n.Width = v }),
		length("Height", "height", func(n note) int { return n.Height }, func(n note, v int) { n.Height = v }),
		d.manyLock(func() string { return m.or(func(n note) string { return yes(n.Locked) }) }, func(on bool) error {
			return m.change("lock", func(n note) { n.Locked = on })
		}),
	}
}

func yes(on bool) string { return map[bool]string{true: "yes", false: "no"}[on] }

// manyLock holds all in place, or lets them go.
func (d *details) manyLock(get func() string, set func(bool) error) control {
	return d.newChoice("Locked in place", func() []string { return []string{"yes", "no"} }, get, func(s string) { d.ed.report(set(s == "yes")) })
}
