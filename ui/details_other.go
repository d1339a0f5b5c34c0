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
		return newTextField(name, func() string { return *at(ed.doc().Info()) }, func(s string) error {
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
			heading("Written on wires"),
			d.wordTick("Number", schematic.WordName),
			d.wordTick("Size", schematic.WordSize),
			d.wordTick("Colour", schematic.WordColor),
			d.wordTick("Circuit", schematic.WordCircuit),
			heading("Sheet in sight"),
			newTextField("Name", func() string { return sheet().Name }, func(s string) error {
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

// sizeChoice is the line for the size of a sheet.
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

// nameList prints names up to a number of them.
func nameList(names []string, most int) string {
	sorted := append([]string(nil), names...)
	sortNames(sorted)
	if len(sorted) > most {
		return strings.Join(sorted[:most], ", ") + fmt.Sprintf(" and %d more", len(sorted)-most)
	}
	return strings.Join(sorted, ", ")
}
