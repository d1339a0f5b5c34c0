package ui

import (
	"fmt"
	"math"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

func (d *details) notePage(n *schematic.Note) page {
	title := "Note"
	if n.Width > 0 && n.Height > 0 {
		title = "Frame"
	}
	id := n.ID
	note := func() *schematic.Note {
		if n, ok := d.ed.doc().Get(schematic.Key{Type: schematic.TypeNote, ID: id}).(*schematic.Note); ok {
			return n
		}
		return &schematic.Note{}
	}
	set := func(what string, change func(*schematic.Note)) error {
		return d.ed.try("set "+what+" of a note", func(tx *edit.Tx) error { return edit.SetNote(tx, id, change) })
	}
	return page{shape: "note " + id.String(), title: title, sub: "Text on the sheet; with width and height it is a frame round a group of parts.", build: func() []control {
		return []control{
			newLongField("Text", func() string { return note().Text }, func(s string) error {
				return set("text", func(n *schematic.Note) { n.Text = s })
			}),
			d.unitsField("Letter height", func() int { return note().TextSize() }, func(v int) error {
				return set("letter height", func(n *schematic.Note) { n.Size = v })
			}),
			d.unitsField("Width", func() int { return note().Width }, func(v int) error {
				return set("width", func(n *schematic.Note) { n.Width = v })
			}),
			d.unitsField("Height", func() int { return note().Height }, func(v int) error {
				return set("height", func(n *schematic.Note) { n.Height = v })
			}),
			d.lockTick(n.Key()),
		}
	}}
}

// unitsField edits a length held in sheet units of 0.1 mm; empty is 0.
func (d *details) unitsField(name string, get func() int, set func(int) error) *field {
	return d.numField(name, unit.Length,
		func() schematic.Num {
			if v := get(); v > 0 {
				return schematic.Some(float64(v) / geom.PerMM)
			}
			return schematic.Num{}
		},
		func(n schematic.Num) error {
			mm := n.Or(0)
			if mm > geom.MaxCoord/geom.PerMM {
				return fmt.Errorf("%g mm is more than any sheet has room for", mm)
			}
			return set(int(math.Round(mm * geom.PerMM)))
		}).hint("none")
}

// documentPage shows the sheet in sight and the title block.
func (d *details) documentPage() page {
	ed := d.ed
	id := ed.sheet
	sheet := func() *schematic.Sheet {
		if s := ed.doc().Sheet(id); s != nil {
			return s
		}
		return &schematic.Sheet{}
	}
	setSheet := func(what string, change func(*schematic.Sheet)) error {
		return ed.try("set "+what+" of sheet "+sheet().Name, func(tx *edit.Tx) error { return edit.SetSheet(tx, id, change) })
	}
	set := func(what string, change func(*schematic.Info)) error {
		return ed.try("set "+what, func(tx *edit.Tx) error { return edit.SetInfo(tx, change) })
	}
	text := func(name, what string, at func(*schematic.Info) *string) *field {
		return newField(name, func() string { return *at(ed.doc().Info()) }, func(s string) error {
			return set(what, func(i *schematic.Info) { *at(i) = strings.TrimSpace(s) })
		})
	}
	title := ed.doc().Info().Title
	if title == "" {
		title = "Untitled drawing"
	}
	doc := ed.doc()
	sub := fmt.Sprintf("%s, %s, %s", count(doc.Len(schematic.TypePart), "part"), count(doc.Len(schematic.TypeWire), "wire"), count(len(doc.Sheets()), "sheet"))
	return page{shape: "document " + id.String(), title: title, sub: sub, build: func() []control {
		return append([]control{
			heading("Drawing"),
			text("Title", "title", func(i *schematic.Info) *string { return &i.Title }),
			text("Vehicle", "vehicle", func(i *schematic.Info) *string { return &i.Vehicle }),
			text("Number", "drawing number", func(i *schematic.Info) *string { return &i.Number }),
			text("Issue", "issue", func(i *schematic.Info) *string { return &i.Issue }),
			text("Drawn", "drawn by", func(i *schematic.Info) *string { return &i.Drawn }).hint("who and when"),
			newLongField("Notes", func() string { return ed.doc().Info().Notes }, func(s string) error {
				return set("notes", func(i *schematic.Info) { i.Notes = s })
			}),
			heading("Assumed everywhere"),
			d.numField("System voltage", unit.Volt, func() schematic.Num { return ed.doc().Info().SystemVolt }, func(n schematic.Num) error {
				return set("system voltage", func(i *schematic.Info) { i.SystemVolt = n })
			}).hint("12 V"),
			d.numField("Air temperature", unit.Temp, func() schematic.Num { return ed.doc().Info().AmbientC }, func(n schematic.Num) error {
				return set("air temperature", func(i *schematic.Info) { i.AmbientC = n })
			}).hint("not known"),
			heading("Sheet in sight"),
			newField("Name", func() string { return sheet().Name }, func(s string) error {
				return setSheet("name", func(s2 *schematic.Sheet) { s2.Name = strings.TrimSpace(s) })
			}),
			d.sizeChoice(sheet, func(w, h int) { ed.report(setSheet("size", func(s *schematic.Sheet) { s.Width, s.Height = w, h })) }),
			d.unitsField("Width", func() int { return sheet().Area().Width() }, func(v int) error {
				return setSheet("width", func(s *schematic.Sheet) { s.Width, s.Height = v, s.Area().Height() })
			}),
			d.unitsField("Height", func() int { return sheet().Area().Height() }, func(v int) error {
				return setSheet("height", func(s *schematic.Sheet) { s.Width, s.Height = s.Area().Width(), v })
			}),
			newLongField("Notes", func() string { return sheet().Notes }, func(t string) error {
				return setSheet("notes", func(s *schematic.Sheet) { s.Notes = t })
			}),
			d.linksField(func() []schematic.Link { return ed.doc().Info().Links }, func(l []schematic.Link) error {
				return set("links", func(i *schematic.Info) { i.Links = l })
			}),
		}, d.limitControls()...)
	}}
}

// paperSizes are the usual sheets, landscape, in 0.1 mm: ISO 216 and ANSI Y14.1.
func paperSizes() []struct {
	name string
	w, h int
} {
	return []struct {
		name string
		w, h int
	}{
		{"A4", 2970, 2100}, {"A3", 4200, 2970}, {"A2", 5940, 4200}, {"A1", 8410, 5940},
		{"Letter", 2794, 2159}, {"Tabloid", 4318, 2794},
	}
}

const otherSize = "other size"

func (d *details) sizeChoice(sheet func() *schematic.Sheet, set func(w, h int)) *choice {
	var names []string
	for _, p := range paperSizes() {
		names = append(names, p.name+" landscape", p.name+" upright")
	}
	return d.newChoice("Paper", func() []string { return names },
		func() string {
			a := sheet().Area()
			for _, p := range paperSizes() {
				switch {
				case a.Width() == p.w && a.Height() == p.h:
					return p.name + " landscape"
				case a.Width() == p.h && a.Height() == p.w:
					return p.name + " upright"
				}
			}
			return otherSize
		},
		func(s string) {
			for _, p := range paperSizes() {
				switch s {
				case p.name + " landscape":
					set(p.w, p.h)
				case p.name + " upright":
					set(p.h, p.w)
				}
			}
		})
}

// manyPage sums a selection up and edits what its wires or parts share.
func (d *details) manyPage(sel []schematic.Key) page {
	n := map[schematic.ItemType]int{}
	var names []string
	for _, k := range sel {
		n[k.Type]++
		if name := schematic.NameOf(d.ed.doc().Get(k)); name != "" {
			names = append(names, name)
		}
	}
	var sums []string
	for _, t := range schematic.Types() {
		if n[t] > 0 {
			sums = append(sums, count(n[t], t.String()))
		}
	}
	shape := fmt.Sprintf("many %v", n[schematic.TypeWire] > 0)
	return page{shape: fmt.Sprint(shape, sel), title: fmt.Sprintf("%d items", len(sel)), sub: strings.Join(sums, ", "), build: func() []control {
		cs := []control{newFact("Selected", func() string { return nameList(names, 40) })}
		if n[schematic.TypeWire] > 0 {
			cs = append(cs, heading("Of "+count(n[schematic.TypeWire], "wire")))
			cs = append(cs, d.sharedWireControls()...)
		}
		if n[schematic.TypePart]+n[schematic.TypeWire] > 0 {
			cs = append(cs, heading("Making them"), d.sharedBuild())
		}
		return cs
	}}
}

// nameList prints names up to a number of them.
func nameList(names []string, most int) string {
	sorted := append([]string(nil), names...)
	sortNames(sorted)
	if len(sorted) > most {
		return strings.Join(sorted[:most], ", ") + fmt.Sprintf(" and %d more", len(sorted)-most)
	}
	return strings.Join(sorted, ", ")
}

// mixed is shown where the selected things differ.
const mixed = "they differ"

// selectedWires returns the wires of the selection.
func (d *details) selectedWires() []*schematic.Wire {
	var ws []*schematic.Wire
	for _, k := range d.ed.sess.Selection() {
		if w := d.ed.doc().Wire(k.ID); w != nil && k.Type == schematic.TypeWire {
			ws = append(ws, w)
		}
	}
	return ws
}

// shared returns what all wires have in common, "" when they differ.
func shared(ws []*schematic.Wire, text func(*schematic.Wire) string) (string, bool) {
	for i, w := range ws {
		if i > 0 && text(w) != text(ws[0]) {
			return "", false
		}
	}
	if len(ws) == 0 {
		return "", true
	}
	return text(ws[0]), true
}

func (d *details) sharedWireControls() []control {
	setAll := func(what string, change func(*schematic.Wire)) error {
		ws := d.selectedWires()
		return d.ed.try(fmt.Sprintf("set %s of %s", what, count(len(ws), "wire")), func(tx *edit.Tx) error {
			for _, w := range ws {
				if err := edit.SetWire(tx, w.ID, change); err != nil {
					return err
				}
			}
			return nil
		})
	}
	line := func(name, what string, text func(*schematic.Wire) string, read func(string) (func(*schematic.Wire), error)) control {
		var f *field
		f = newField(name, func() string {
			s, same := shared(d.selectedWires(), text)
			if f != nil {
				if same {
					f.hint("not known")
				} else {
					f.hint(mixed)
				}
			}
			return s
		}, func(s string) error {
			change, err := read(s)
			if err != nil {
				return err
			}
			return setAll(what, change)
		})
		f.load()
		return f
	}
	return []control{
		line("Size", "size", func(w *schematic.Wire) string {
			if !w.Size.Known() {
				return ""
			}
			return w.Size.String()
		}, func(s string) (func(*schematic.Wire), error) {
			v, err := parseSize(s)
			return func(w *schematic.Wire) { w.Size = v }, err
		}),
		line("Colour", "colour", func(w *schematic.Wire) string { return w.Color.String() }, func(s string) (func(*schematic.Wire), error) {
			v, err := schematic.ParseColor(s)
			return func(w *schematic.Wire) { w.Color = v }, err
		}),
		line("Insulation", "insulation", func(w *schematic.Wire) string { return w.Insulation }, func(s string) (func(*schematic.Wire), error) {
			return func(w *schematic.Wire) { w.Insulation = strings.TrimSpace(s) }, nil
		}),
		line("Circuit", "circuit", func(w *schematic.Wire) string { return w.Circuit }, func(s string) (func(*schematic.Wire), error) {
			return func(w *schematic.Wire) { w.Circuit = strings.TrimSpace(s) }, nil
		}),
		line("Length", "length", func(w *schematic.Wire) string { return d.ed.quantity(unit.Length, w.LengthMM) }, func(s string) (func(*schematic.Wire), error) {
			n := schematic.Num{}
			if strings.TrimSpace(s) != "" {
				v, err := unit.Parse(unit.Length, s)
				if err != nil {
					return nil, err
				}
				n = schematic.Some(v)
			}
			return func(w *schematic.Wire) { w.LengthMM = n }, nil
		}),
	}
}

// sharedBuild sets how far all selected parts and wires have come.
func (d *details) sharedBuild() control {
	get := func() string {
		first, same, any := schematic.Build(""), true, false
		for _, k := range d.ed.sess.Selection() {
			var b schematic.Build
			switch it := d.ed.doc().Get(k).(type) {
			case *schematic.Part:
				b = it.Build
			case *schematic.Wire:
				b = it.Build
			default:
				continue
			}
			if any && b != first {
				same = false
			}
			first, any = b, true
		}
		switch {
		case !same:
			return mixed
		case first == "":
			return string(schematic.Planned)
		}
		return string(first)
	}
	return d.newChoice("Built so far",
		func() []string {
			var all []string
			for _, b := range schematic.Builds() {
				all = append(all, string(b))
			}
			return all
		}, get,
		func(s string) {
			b := schematic.Build(s)
			if b == schematic.Planned {
				b = ""
			}
			sel := d.ed.sess.Selection()
			d.ed.report(d.ed.try("set build step of "+count(len(sel), "item"), func(tx *edit.Tx) error {
				for _, k := range sel {
					var err error
					switch k.Type {
					case schematic.TypePart:
						err = edit.SetPart(tx, k.ID, func(p *schematic.Part) { p.Build = b })
					case schematic.TypeWire:
						err = edit.SetWire(tx, k.ID, func(w *schematic.Wire) { w.Build = b })
					}
					if err != nil {
						return err
					}
				}
				return nil
			}))
		})
}
